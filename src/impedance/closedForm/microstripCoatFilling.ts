import type { Ratio } from '../../units/quantity.ts'
import { assertCoveredLine, type CoveredLine } from './coveredLine.ts'
import { coverFill } from './coverFill.ts'
import type { Limit } from './limits.ts'
import type { LineConstants } from './lineConstants.ts'
import { microstripHammerstadJensen } from './microstripHammerstadJensen.ts'

/**
 * Surface microstrip under a conformal coat, such as solder mask, of one thickness c on the laminate, the side
 * walls and the top:
 *
 *     x = 1.78 (c/h)^0.82 (w/h)^(−0.32) (1 − 0.41 t/h)
 *
 * put into the filling law of coverFill.ts, on the Hammerstad–Jensen line with thickness. The last factor would turn
 * negative at t = 2.44 h; for copper thicker than 2 h, far outside the box, it stays what it is there.
 *
 * Assumes: lossless, one infinite plane, uniform coat, no dispersion.
 * Source: own fit, this project, to a boundary-element solution with the coat as built; w 75–200, h 60–250,
 * t 12–50, c 10–30 µm, εr 3.2–4.2, εcoat 3.5.
 */
export function microstripCoatFilling(line: CoveredLine): LineConstants {
  assertCoveredLine(line)
  const { width: w, thickness: t, height: h, coverThickness: c } = line
  const x = 1.78 * (c / h) ** 0.82 * (w / h) ** -0.32 * thicknessFactor(t / h)
  return coverFill(microstripHammerstadJensen(line), line.relativePermittivity, line.coverPermittivity, x)
}

/** The box of the fit, as ratios. */
export const LIMITS: readonly Limit[] = [
  { quantity: 'width/height', min: 0.3, max: 3.34 },
  { quantity: 'thickness/height', min: 0.048, max: 0.84 },
  { quantity: 'coat thickness/height', min: 0.04, max: 0.5 },
  { quantity: 'relative permittivity', min: 3.2, max: 4.2 },
  { quantity: 'coat permittivity', min: 3.2, max: 4 },
]

function thicknessFactor(thicknessToHeight: Ratio): Ratio {
  return 1 - 0.41 * Math.min(thicknessToHeight, THICKEST)
}

const THICKEST: Ratio = 2
