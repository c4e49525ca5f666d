import type { Metres, Ratio } from '../../units/quantity.ts'

/** Equal spheres that stand for the nodules of a treated foil. */
export interface Nodules {
  readonly radius: Metres
  /** Surface of all spheres, 4π a² N, over the flat area they stand on. */
  readonly areaRatio: Ratio
}

export interface RoughSurface {
  /** Area of the base without nodules over the flat area; 1 for a flat base. */
  readonly baseAreaRatio: Ratio
  readonly nodules: readonly Nodules[]
}

/**
 * Factor by which a surface of spherical nodules raises the loss of flat copper.
 *
 *     K = A_base/A_flat + (3/2) Σ (4π a² N / A_flat) / [1 + δ/a + δ²/(2a²)]
 *
 * Source: P. G. Huray et al., "Impact of copper surface texture on loss: a model that works", DesignCon 2010;
 * P. G. Huray, "The Foundations of Signal Integrity", Wiley 2010 (from memory).
 * Throws RangeError unless radii and the skin depth are positive and area ratios are not negative.
 */
export function roughnessHuray(surface: RoughSurface, skinDepth: Metres): Ratio {
  if (!(skinDepth > 0 && surface.baseAreaRatio >= 0)) {
    throw new RangeError(
      `roughness factor needs skin depth > 0 and base area ratio >= 0, got ${skinDepth} m, ${surface.baseAreaRatio}`,
    )
  }
  return surface.nodules.reduce((sum, { radius, areaRatio }) => {
    if (!(radius > 0 && areaRatio >= 0)) {
      throw new RangeError(`nodules need radius > 0 and area ratio >= 0, got ${radius} m, ${areaRatio}`)
    }
    const depth = skinDepth / radius
    return sum + (1.5 * areaRatio) / (1 + depth + (depth * depth) / 2)
  }, surface.baseAreaRatio)
}
