import { assertCoplanarLine, type CoplanarLine } from './coplanarLine.ts'
import { sideCapacitances } from './coplanarSideWalls.ts'
import { withSideGrounds } from './coplanarSides.ts'
import type { CoveredLine } from './coveredLine.ts'
import type { Limit } from './limits.ts'
import type { LineConstants } from './lineConstants.ts'
import { microstripCoatFilling } from './microstripCoatFilling.ts'

/**
 * Grounded coplanar line under a conformal coat of thickness c. As coplanarSideWalls.ts, with the half space above
 * and the gap between the side walls partly filled:
 *
 *     εabove = 1 + (εc − 1)(1 − e^(−y)),   y = 3.6 c/√(gap w)
 *     εwalls = 1/(1 − f + f/εc),           f = 1 − e^(−2.6 c/gap)      (coat and air in series)
 *
 * and the coated microstrip line (microstripCoatFilling.ts) in place of the bare one.
 *
 * Assumes: as the parts.
 * Source: own construction and fit, this project, to a boundary-element solution of 250 lines.
 */
export function coplanarCoated(line: CoplanarLine & CoveredLine): LineConstants {
  assertCoplanarLine(line)
  const { width: w, gap, coverThickness: c, coverPermittivity: ec } = line
  const above = 1 - (ec - 1) * Math.expm1((-3.6 * c) / Math.sqrt(gap * w))
  const filled = -Math.expm1((-2.6 * c) / gap)
  const walls = 1 / (1 - filled + filled / ec)
  return withSideGrounds(sideCapacitances(line, above, walls), microstripCoatFilling(line))
}

/** The box of the fit, as ratios. */
export const LIMITS: readonly Limit[] = [
  { quantity: 'width/height', min: 0.2, max: 5 },
  { quantity: 'gap/height', min: 0.4, max: 4 },
  { quantity: 'thickness/gap', min: 0, max: 0.9 },
  { quantity: 'coat thickness/height', min: 0.06, max: 0.4 },
  { quantity: 'relative permittivity', min: 3, max: 4.5 },
  { quantity: 'coat permittivity', min: 3, max: 4.2 },
]
