import type { Limit } from './limits.ts'
import type { Metres, Ohms } from '../../units/quantity.ts'
import { assertOffsetStripline, type OffsetStripline } from './offsetStripline.ts'
import { striplineWheeler } from './striplineWheeler.ts'

/**
 * Offset stripline as two halves in parallel, each half of a centred line whose planes are as far as that side's:
 *
 *     Z = 2 Za Zb/(Za + Zb),   Za with spacing 2 below + t,   Zb with spacing 2 above + t
 *
 * Exact when centred or very wide, otherwise always high: the surface midway between the halves is no field line.
 *
 * Assumes: TEM, lossless, infinite planes, one dielectric, rectangular strip.
 * Source: common practice after S. B. Cohn, 1954; the halves by H. A. Wheeler, 1978 (striplineWheeler.ts).
 */
export function offsetParallelHalves(line: OffsetStripline): Ohms {
  const { lower, upper } = halfLines(line)
  return (2 * lower * upper) / (lower + upper)
}

/** Za and Zb: the centred lines whose halves make up the offset line. */
export function halfLines(line: OffsetStripline): { readonly lower: Ohms; readonly upper: Ohms } {
  assertOffsetStripline(line)
  const { width, thickness, below, above, relativePermittivity } = line
  const centred = (distance: Metres): Ohms =>
    striplineWheeler({ width, thickness, spacing: 2 * distance + thickness, relativePermittivity })
  return { lower: centred(below), upper: centred(above) }
}

/** No limit is stated with the rule; it is meant for a strip not far from the middle. */
export const LIMITS: readonly Limit[] = [{ quantity: 'distance ratio', min: 1, max: 2 }]
