import { positivePower } from '../../numerics/positivePower.ts'
import type { Limit } from './limits.ts'
import type { Metres, Ohms } from '../../units/quantity.ts'
import { assertOffsetStripline, type OffsetStripline } from './offsetStripline.ts'
import { striplineWheeler } from './striplineWheeler.ts'

/**
 * Offset stripline as a centred one between planes of an equivalent spacing:
 *
 *     Z      = ZWheeler(w, t, beq)
 *     beq    = bwire (1 − S) + bplate S,   S = G/(1 + G),   G = [ (w + t)/(1.46 bwire) ]^4.2
 *     bwire  = b sin(πy/b),   b = below + t + above,   y = min(below, above) + t/2
 *     bplate = t + 4 below above/(below + above)
 *
 * bwire makes the narrow strip exact, since a centred wire in planes bwire apart has the impedance of the offset
 * one (offsetWireLimit.ts); bplate makes the plates of the wide strip exact. S passes from one to the other.
 *
 * Assumes: TEM, lossless, infinite planes, one dielectric, rectangular strip.
 * Source: own construction, its two numbers an own fit, this project, to a boundary-element solution of 540 lines;
 * base formula H. A. Wheeler, 1978.
 */
export function offsetEquivalentSpacing(line: OffsetStripline): Ohms {
  const { width, thickness, relativePermittivity } = line
  return striplineWheeler({ width, thickness, spacing: equivalentSpacing(line), relativePermittivity })
}

export function equivalentSpacing(line: OffsetStripline): Metres {
  assertOffsetStripline(line)
  const { width: w, thickness: t, below, above } = line
  const b = below + t + above
  const y = Math.min(below, above) + t / 2
  const wire = b * Math.sin((Math.PI * y) / b)
  const plate = t + (4 * below * above) / (below + above)
  const G = positivePower((w + t) / (1.46 * wire), 4.2)
  const S = G / (1 + G)
  return wire * (1 - S) + plate * S
}

/** The box in which the fit was checked, as ratios; `distance ratio` is the farther distance over the nearer. */
export const LIMITS: readonly Limit[] = [
  { quantity: 'width/near distance', min: 0.1, max: 10 },
  { quantity: 'thickness/near distance', min: 0, max: 0.6 },
  { quantity: 'distance ratio', min: 1, max: 10 },
]
