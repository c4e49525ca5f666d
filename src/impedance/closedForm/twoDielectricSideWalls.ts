import type { LineConstants } from './lineConstants.ts'
import { offsetEquivalentSpacing } from './offsetEquivalentSpacing.ts'
import { halfLines } from './offsetParallelHalves.ts'
import { striplineExact } from './striplineExact.ts'
import { assertTwoDielectrics, type TwoDielectricStripline } from './twoDielectricStripline.ts'

/**
 * Stripline between two dielectrics, the strip standing on the lower and its body inside the upper one. As the
 * capacitance-weighted form, but half of what the thickness adds to the lower half line is given to the upper
 * dielectric, where the side walls are:
 *
 *     Y′below = Ybelow − 0.5 max(0, Ybelow − Ybelow,0)
 *     εeff    = [ εbelow Y′below + εabove (Ybelow + Yabove − Y′below) ]/(Ybelow + Yabove),   Z = Zair/√εeff
 *
 * Ybelow, Yabove are the admittances of the half lines in air (offsetParallelHalves.ts), Ybelow,0 the exact one of
 * the lower half without thickness, Zair that of offsetEquivalentSpacing.ts.
 *
 * Assumes: quasi-TEM, lossless, infinite planes, rectangular strip.
 * Source: own construction, this project, checked against a boundary-element solution.
 */
export function twoDielectricSideWalls(line: TwoDielectricStripline): LineConstants {
  assertTwoDielectrics(line)
  const air = { ...line, relativePermittivity: 1 }
  const { lower, upper } = halfLines(air)
  const total = 1 / lower + 1 / upper
  const thin = 1 / striplineExact({ ...air, spacing: 2 * line.below + line.thickness })
  const below = 1 / lower - 0.5 * Math.max(0, 1 / lower - thin)
  const ee = (line.permittivityBelow * below + line.permittivityAbove * (total - below)) / total
  return { impedance: offsetEquivalentSpacing(air) / Math.sqrt(ee), effectivePermittivity: ee }
}
