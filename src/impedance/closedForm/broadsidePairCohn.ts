import { bracketRoot } from '../../numerics/bracketRoot.ts'
import { ellipticRatio } from '../../numerics/ellipticRatio.ts'
import { FREE_SPACE_IMPEDANCE } from '../../units/constants.ts'
import type { Metres, Ratio } from '../../units/quantity.ts'
import type { Limit } from './limits.ts'
import type { PairImpedances } from './striplinePair.ts'

/** Two strips of zero thickness face to face, at equal distances from two planes. */
export interface BroadsidePair {
  readonly width: Metres
  /** Between the facing surfaces of the strips. */
  readonly separation: Metres
  /** Between the planes. */
  readonly spacing: Metres
  readonly relativePermittivity: Ratio
}

/**
 * Broadside-coupled pair of zero thickness by conformal mapping. With r = s/b and a modulus k between r and 1:
 *
 *     w/b = (2/π) [ artanh R − r artanh(R/k) ],   R² = k (k − r)/(1 − k r)
 *     Zo  = (π η0/4) r / [√εr artanh k],   Ze = (η0/2)/√εr · K(k′)/K(k)
 *
 * Assumes: TEM, lossless, infinite planes, one dielectric, edges that do not interact (w/s ≥ 0.35). A
 * boundary-element solution agrees within 0.01 % (odd) and 0.4 % (even) for w ≥ s; even −4 % at w/s = 0.4.
 * Source: S. B. Cohn, "Characteristic impedances of broadside-coupled strip transmission lines", IRE Trans. MTT-8,
 * Nov. 1960, pp. 633–637 (from memory; the print rounds πη0/4 to 296.1 and η0/2 to 188.3 ohm).
 */
export function broadsidePairCohn(pair: BroadsidePair): PairImpedances {
  const { separation: s, spacing: b, relativePermittivity: er } = pair
  const complement = modulusComplement(pair)
  const scale = FREE_SPACE_IMPEDANCE / (2 * Math.sqrt(er))
  return {
    odd: (scale * Math.PI * s) / (2 * b * artanhBelowOne(complement)),
    even: scale * ellipticRatio(Math.sqrt(complement * (2 - complement)), 1 - complement),
  }
}

export const LIMITS: readonly Limit[] = [
  { quantity: 'width/separation', min: 0.35, max: 100 },
  { quantity: 'thickness/separation', min: 0, max: 0 },
]

/**
 * 1 − k, sought on a logarithmic scale because wide strips press k against 1 as exp[−π w/(b − s)].
 * Throws RangeError unless 0 < separation < spacing and 0 < width < 200 (spacing − separation).
 */
function modulusComplement({
  width: w,
  separation: s,
  spacing: b,
  relativePermittivity: er,
}: BroadsidePair): Ratio {
  if (!(w > 0 && s > 0 && b > s && w < 200 * (b - s) && er >= 1)) {
    throw new RangeError(
      'broadside pair needs 0 < separation < spacing, 0 < width < 200 (spacing - separation) and relative ' +
        `permittivity >= 1, got ${s} m, ${b} m, ${w} m, ${er}`,
    )
  }
  const r = s / b
  const excess = (logarithm: number): number => widthToSpacing(Math.exp(logarithm), r) - w / b
  const widest = Math.log(1 - r)
  return Math.exp(bracketRoot(excess, widest - (Math.PI * w) / (b - s) - 10, widest))
}

/** w/b from 1 − k, with 1 − R² = (1 − k²)/(1 − k r) and 1 − R²/k² = r (1 − k²)/[k (1 − k r)]: no cancellation at k = 1. */
function widthToSpacing(complement: number, r: number): number {
  const k = 1 - complement
  const belowOne = (complement * (2 - complement)) / (1 - k * r)
  return (2 / Math.PI) * (artanhOfSquare(belowOne) - r * artanhOfSquare((r * belowOne) / k))
}

/** artanh of the root of 1 − d, from d. */
function artanhOfSquare(d: number): number {
  const root = Math.sqrt(Math.max(0, 1 - d))
  return Math.log((1 + root) / Math.sqrt(d))
}

/** artanh(1 − d) */
function artanhBelowOne(d: number): number {
  return 0.5 * Math.log((2 - d) / d)
}
