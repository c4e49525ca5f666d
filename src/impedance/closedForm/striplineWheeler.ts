import { positivePower } from '../../numerics/positivePower.ts'
import { FREE_SPACE_IMPEDANCE } from '../../units/constants.ts'
import type { Metres, Ohms } from '../../units/quantity.ts'
import type { Limit } from './limits.ts'
import { assertCentredStripline, type CentredStripline } from './striplineLine.ts'

/**
 * Centred stripline with thickness. With x = t/b:
 *
 *     Δw/(b − t) = x/[π(1 − x)] · { 1 − ½ ln[ (x/(2 − x))² + (0.0796 x/(w/b + 1.1 x))^m ] }
 *     m          = 2/[1 + ⅔ x/(1 − x)]
 *     p          = (b − t)/(w + Δw)
 *     Z          = η0/(4π √εr) · ln{ 1 + 4/π · p [ 8/π · p + √((8/π · p)² + 6.27) ] }
 *
 * The print rounds η0/4π to 30 ohm; the exact factor is used here.
 *
 * Assumes: TEM, lossless, infinite planes, one dielectric, rectangular strip midway.
 * Stated by the author: 0.5 % for w/(b − t) < 10.
 *
 * Source: H. A. Wheeler, "Transmission-line properties of a strip line between parallel planes", IEEE Trans.
 * MTT-26, 866–876, Nov. 1978.
 */
export function striplineWheeler(line: CentredStripline): Ohms {
  const { width: w, thickness: t, spacing: b, relativePermittivity: er } = line
  const p = (b - t) / (w + striplineWidening(line))
  const q = (8 / Math.PI) * p
  const argument = (4 / Math.PI) * p * (q + Math.sqrt(q * q + 6.27))
  return (FREE_SPACE_IMPEDANCE / (4 * Math.PI * Math.sqrt(er))) * Math.log1p(argument)
}

export const LIMITS: readonly Limit[] = [{ quantity: 'width/(spacing - thickness)', min: 0, max: 10 }]

/** Δw: the width to add for a zero-thickness strip to stand for the thick one; 0 for zero thickness. */
export function striplineWidening(line: CentredStripline): Metres {
  assertCentredStripline(line)
  const { width: w, thickness: t, spacing: b } = line
  if (t === 0) return 0
  const x = t / b
  const m = 2 / (1 + ((2 / 3) * x) / (1 - x))
  const inside = (x / (2 - x)) ** 2 + positivePower((0.0796 * x) / (w / b + 1.1 * x), m)
  return ((b - t) * x * (1 - 0.5 * Math.log(inside))) / (Math.PI * (1 - x))
}
