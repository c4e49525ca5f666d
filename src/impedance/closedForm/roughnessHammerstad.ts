import type { Metres, Ratio } from '../../units/quantity.ts'

/**
 * Factor by which roughness raises the surface resistance.
 *
 *     K = 1 + (2/π) arctan[ 1.4 (D/δ)² ],   D rms roughness, δ skin depth
 *
 * Saturates at 2, so it falls short for very rough foil above some 5 GHz.
 * Source: E. Hammerstad, O. Jensen, IEEE MTT-S Digest 1980, pp. 407–409, after S. P. Morgan, "Effect of surface
 * roughness on eddy current losses at microwave frequencies", J. Appl. Phys. 20, 1949, pp. 352–362.
 * Throws RangeError unless roughness is at least 0 and the skin depth positive.
 */
export function roughnessHammerstad(roughness: Metres, skinDepth: Metres): Ratio {
  if (!(roughness >= 0 && skinDepth > 0)) {
    throw new RangeError(
      `roughness factor needs roughness >= 0 and skin depth > 0, got ${roughness} m, ${skinDepth} m`,
    )
  }
  return 1 + (2 / Math.PI) * Math.atan(1.4 * (roughness / skinDepth) ** 2)
}
