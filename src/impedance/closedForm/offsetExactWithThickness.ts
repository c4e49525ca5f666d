import type { Metres, Ohms } from '../../units/quantity.ts'
import type { Limit } from './limits.ts'
import { assertOffsetStripline, type OffsetStripline } from './offsetStripline.ts'
import { striplineExactWithThickness } from './striplineExactWithThickness.ts'

/**
 * Offset stripline as a centred one between planes of an equivalent spacing, on the exact thin strip:
 *
 *     Z      = Zexact(w, beq) · ZWheeler(w, t, beq)/ZWheeler(w, 0, beq)
 *     beq    = bwire (1 − S) + bplate S,   S = G/(1 + G),   G = [ (w + t)/(1.92 bwire) ]^1.76
 *     bwire  = b sin(πy/b),   b = below + t + above,   y = min(below, above) + t/2
 *     bplate = t + 4 below above/(below + above)
 *
 * The idea is that of offsetEquivalentSpacing.ts, narrow strip and wide plates exact. On a base that is exact
 * itself the passage between the two can follow the strip, not the base's error: a third of the error remains.
 *
 * Assumes: TEM, lossless, infinite planes, one dielectric, rectangular strip.
 * Source: own construction, its two numbers an own fit, this project, to a boundary-element solution of 250 lines,
 * checked on 600 others; base formulas S. B. Cohn, 1954, and H. A. Wheeler, 1978.
 */
export function offsetExactWithThickness(line: OffsetStripline): Ohms {
  const { width, thickness, relativePermittivity } = line
  return striplineExactWithThickness({ width, thickness, relativePermittivity, spacing: spacing(line) })
}

/** The box in which it was checked, as ratios; `distance ratio` is the farther distance over the nearer. */
export const LIMITS: readonly Limit[] = [
  { quantity: 'width/near distance', min: 0.1, max: 10 },
  { quantity: 'thickness/near distance', min: 0, max: 0.6 },
  { quantity: 'thickness/width', min: 0, max: 1 },
  { quantity: 'distance ratio', min: 1, max: 12 },
]

function spacing(line: OffsetStripline): Metres {
  assertOffsetStripline(line)
  const { width: w, thickness: t, below, above } = line
  const b = below + t + above
  const wire = b * Math.sin((Math.PI * (Math.min(below, above) + t / 2)) / b)
  const plate = t + (4 * below * above) / (below + above)
  const G = ((w + t) / (1.92 * wire)) ** 1.76
  return wire + ((plate - wire) * G) / (1 + G)
}
