import type { Ohms } from '../../units/quantity.ts'
import type { Limit } from './limits.ts'
import { assertCentredStripline, type CentredStripline } from './striplineLine.ts'

/**
 * The simple logarithm for centred stripline that stands in many application notes. For comparison only: up to 5 %
 * low inside its range, without bound outside, where most fine lines are.
 *
 *     Z = 60/√εr · ln[ 1.9 b/(0.8 w + t) ]
 *
 * Quoted range: w/(b − t) < 0.35, t/b < 0.25.
 *
 * Source: IPC-2141; coefficients from memory.
 *
 * Throws RangeError where the logarithm is not above zero, 0.8 w + t >= 1.9 b: there is no impedance to give.
 */
export function striplineSimpleLog(line: CentredStripline): Ohms {
  assertCentredStripline(line)
  const { width: w, thickness: t, spacing: b, relativePermittivity: er } = line
  const argument = (1.9 * b) / (0.8 * w + t)
  if (!(argument > 1)) {
    throw new RangeError(`simple stripline form needs 0.8 w + t < 1.9 b, got ${0.8 * w + t} m and ${b} m`)
  }
  return (60 / Math.sqrt(er)) * Math.log(argument)
}

export const LIMITS: readonly Limit[] = [
  { quantity: 'width/(spacing - thickness)', min: 0, max: 0.35 },
  { quantity: 'thickness/spacing', min: 0, max: 0.25 },
]
