import type { Limit } from './limits.ts'
import type { LineConstants } from './lineConstants.ts'
import { offsetEquivalentSpacing } from './offsetEquivalentSpacing.ts'
import { halfLines } from './offsetParallelHalves.ts'
import { assertTwoDielectrics, type TwoDielectricStripline } from './twoDielectricStripline.ts'

/**
 * Stripline between two dielectrics: each weighs as the capacitance of its half of the line in air,
 *
 *     εeff = (εbelow/Za + εabove/Zb)/(1/Za + 1/Zb),   Z = Zair/√εeff
 *
 * with the half lines of offsetParallelHalves.ts and the air line of offsetEquivalentSpacing.ts. The strip's side
 * walls, which stand in the upper dielectric alone, are shared as if the strip were thin.
 *
 * Assumes: quasi-TEM, lossless, infinite planes, rectangular strip.
 * Source: common practice; air line an own construction, this project.
 */
export function twoDielectricCapacitanceWeighted(line: TwoDielectricStripline): LineConstants {
  assertTwoDielectrics(line)
  const air = { ...line, relativePermittivity: 1 }
  const { lower, upper } = halfLines(air)
  const ee = (line.permittivityBelow / lower + line.permittivityAbove / upper) / (1 / lower + 1 / upper)
  return { impedance: offsetEquivalentSpacing(air) / Math.sqrt(ee), effectivePermittivity: ee }
}

/** No limit is stated with the rule; within this contrast its share was checked. */
export const LIMITS: readonly Limit[] = [{ quantity: 'permittivity contrast', min: 1, max: 1.5 }]
