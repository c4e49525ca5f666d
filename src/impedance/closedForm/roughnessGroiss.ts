import type { Metres, Ratio } from '../../units/quantity.ts'

/**
 * Factor by which roughness raises the surface resistance.
 *
 *     K = 1 + exp[ −(δ / 2D)^1.6 ],   D rms roughness, δ skin depth
 *
 * Saturates at 2. Smooth copper gives 1.
 * Source: S. Groiss, I. Bardi, O. Biro, K. Preis, K. R. Richter, "Parameters of lossy cavity resonators calculated
 * by the finite element method", IEEE Trans. Magnetics 32, 1996, pp. 894–897 (constants from memory).
 * Throws RangeError unless roughness is at least 0 and the skin depth positive.
 */
export function roughnessGroiss(roughness: Metres, skinDepth: Metres): Ratio {
  if (!(roughness >= 0 && skinDepth > 0)) {
    throw new RangeError(
      `roughness factor needs roughness >= 0 and skin depth > 0, got ${roughness} m, ${skinDepth} m`,
    )
  }
  return roughness === 0 ? 1 : 1 + Math.exp(-((skinDepth / (2 * roughness)) ** 1.6))
}
