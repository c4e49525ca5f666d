import type { Metres } from '../../units/quantity.ts'
import { backedRatio } from './coplanarGhioneNaldi.ts'
import { WIDENING_SHARE, withSideGrounds } from './coplanarSides.ts'
import type { Limit } from './limits.ts'
import type { LineConstants } from './lineConstants.ts'
import { equivalentSpacing } from './offsetEquivalentSpacing.ts'
import { striplineWidening } from './striplineWheeler.ts'
import { twoDielectricSideWalls } from './twoDielectricSideWalls.ts'
import type { TwoDielectricStripline } from './twoDielectricStripline.ts'

/**
 * Stripline with ground in its own layer on both sides. Each half space is the plane-backed one of Ghione and
 * Naldi (exact for a thin strip midway, by symmetry), the strip widened by 0.3 of Wheeler's Δw in the equivalent
 * spacing, plus the side walls as plates in the upper dielectric:
 *
 *     Cd = 2 εbelow r3(below) + 2 εabove r3(above) + 2 εabove t/gap,   Ca likewise in air       (over ε0)
 *
 * joined with the stripline without side grounds (twoDielectricSideWalls.ts) by a smooth maximum.
 *
 * Assumes: lossless, quasi-static, infinite side grounds of the strip's thickness at the potential of the planes.
 * Source: own construction, this project, with the constants of coplanarSideWalls.ts, checked against a
 * boundary-element solution of 500 lines.
 */
export function coplanarStripline(line: TwoDielectricStripline & { readonly gap: Metres }): LineConstants {
  const { width, thickness, below, above, gap, permittivityBelow, permittivityAbove } = line
  if (!(gap > 0 && Number.isFinite(gap)))
    throw new RangeError(`coplanar stripline needs gap > 0, got ${gap} m`)
  const alone = twoDielectricSideWalls(line)
  const air = { width, thickness, relativePermittivity: 1 }
  const spacing = equivalentSpacing({ ...air, below, above })
  const a = (width + WIDENING_SHARE * striplineWidening({ ...air, spacing })) / 2
  const lower = 2 * backedRatio(a, a + gap, below)
  const upper = 2 * backedRatio(a, a + gap, above) + (2 * thickness) / gap
  return withSideGrounds(
    { dielectric: permittivityBelow * lower + permittivityAbove * upper, air: lower + upper },
    alone,
  )
}

/** The box that was checked, as ratios. */
export const LIMITS: readonly Limit[] = [
  { quantity: 'width/near distance', min: 0.1, max: 10 },
  { quantity: 'gap/near distance', min: 0.3, max: 4 },
  { quantity: 'thickness/near distance', min: 0, max: 0.5 },
  { quantity: 'distance ratio', min: 1, max: 8 },
]
