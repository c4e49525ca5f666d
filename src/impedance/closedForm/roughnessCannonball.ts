import type { Metres, Ratio } from '../../units/quantity.ts'
import { roughnessHuray } from './roughnessHuray.ts'

/** Sphere radius over ten-point height. */
const RADIUS_PER_HEIGHT = 0.06
/** Nine spheres below, four above, one on top. */
const SPHERES = 14
/** The square tile under a stack is six radii wide. */
const TILE_WIDTH_IN_RADII = 6

/**
 * Nodule model with the one number of a foil's data sheet: a stack of 14 equal spheres on a flat tile.
 *
 *     a = 0.06 Rz,   tile 36 a²,   K = 1 + (84π/36) / [1 + δ/a + δ²/(2a²)]
 *
 * Rz is the ten-point height of one side; matte and drum side differ and their factors are averaged by the caller.
 * Source: L. Simonovich, "Practical method for modeling conductor surface roughness using close packing of equal
 * spheres", DesignCon 2015 (from memory).
 * Throws RangeError unless height and skin depth are positive.
 */
export function roughnessCannonball(tenPointHeight: Metres, skinDepth: Metres): Ratio {
  if (!(tenPointHeight > 0)) {
    throw new RangeError(`roughness factor needs a ten-point height > 0, got ${tenPointHeight} m`)
  }
  const areaRatio = (4 * Math.PI * SPHERES) / TILE_WIDTH_IN_RADII ** 2
  return roughnessHuray(
    { baseAreaRatio: 1, nodules: [{ radius: RADIUS_PER_HEIGHT * tenPointHeight, areaRatio }] },
    skinDepth,
  )
}
