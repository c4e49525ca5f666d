import { FREE_SPACE_IMPEDANCE } from '../../units/constants.ts'
import type { Ohms } from '../../units/quantity.ts'
import { assertOffsetStripline, type OffsetStripline } from './offsetStripline.ts'

/**
 * A wide strip of zero thickness between two planes: two plate capacitors and the exact fringing of its two edges.
 * Exact in the limit of a wide strip. With a = below/(below + above):
 *
 *     Z = η0/√εr / [ w/below + w/above + 2 Ce ],   Ce = 1/π · [ ln(1/a)/(1 − a) + ln(1/(1 − a))/a ]
 *
 * Midway, a = ½, Ce is 4 ln 2/π.
 *
 * Assumes: TEM, lossless, infinite planes, one dielectric, zero thickness (the given one is not used).
 * Source: conformal mapping, a standard result, from memory; confirmed to 5e-6 by a boundary-element solution.
 */
export function offsetPlateLimit(line: OffsetStripline): Ohms {
  assertOffsetStripline(line)
  const { width: w, below, above, relativePermittivity: er } = line
  const a = below / (below + above)
  const edge = (-Math.log(a) / (1 - a) - Math.log1p(-a) / a) / Math.PI
  return FREE_SPACE_IMPEDANCE / Math.sqrt(er) / (w / below + w / above + 2 * edge)
}
