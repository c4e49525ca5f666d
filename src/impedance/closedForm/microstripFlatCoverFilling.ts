import { coverFill } from './coverFill.ts'
import { assertEmbeddedLine, type EmbeddedLine } from './embeddedLine.ts'
import type { LineConstants } from './lineConstants.ts'
import type { Limit } from './limits.ts'
import { microstripHammerstadJensen } from './microstripHammerstadJensen.ts'

/**
 * Embedded microstrip: a strip on its substrate under a flat-topped cover that reaches c above the strip's upper
 * face, air above:
 *
 *     x(c) = 1.36 [ (c + 0.53 t)/h ]^0.67 (w/h)^(−0.33)
 *
 * put into the filling law of coverFill.ts, on the Hammerstad–Jensen line with thickness. In a cover of several
 * sheets, ending at c1, c2, …, each counts for the step of the filling that it makes,
 *
 *     εc = Σ εi (e^(−x(c(i−1))) − e^(−x(ci)))/(1 − e^(−x(cn))),   e^(−x(c0)) = 1
 *
 * so that dividing a sheet changes nothing and a sheet of air counts as none.
 *
 * Assumes: lossless, one infinite plane, flat cover, no dispersion.
 * Source: own fit, this project, to a boundary-element solution; w 75–200, h 60–250, t 12–50, c 10–200 µm,
 * εr 3.2–4.2, cover of the substrate's material. Checked well beyond, see the binding.
 */
export function microstripFlatCoverFilling(line: EmbeddedLine): LineConstants {
  assertEmbeddedLine(line)
  let reached = 0
  let left = 1
  let weighted = 0
  for (const sheet of line.covers) {
    reached += sheet.thickness
    const next = Math.exp(-reach(line, reached))
    weighted += sheet.relativePermittivity * (left - next)
    left = next
  }
  const permittivity = weighted / (1 - left)
  return coverFill(
    microstripHammerstadJensen(line),
    line.relativePermittivity,
    permittivity,
    reach(line, reached),
  )
}

/** The fine-line box of the fit, as ratios. */
export const LIMITS: readonly Limit[] = [
  { quantity: 'width/height', min: 0.3, max: 3.34 },
  { quantity: 'thickness/height', min: 0.048, max: 0.84 },
  { quantity: 'cover/height', min: 0.04, max: 3.34 },
  { quantity: 'relative permittivity', min: 3.2, max: 4.2 },
  { quantity: 'cover permittivity', min: 3.2, max: 4.2 },
]

function reach(line: EmbeddedLine, c: number): number {
  const { width: w, thickness: t, height: h } = line
  return 1.36 * ((c + 0.53 * t) / h) ** 0.67 * (w / h) ** -0.33
}
