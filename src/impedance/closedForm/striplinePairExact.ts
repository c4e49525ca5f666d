import { ellipticRatio } from '../../numerics/ellipticRatio.ts'
import { FREE_SPACE_IMPEDANCE } from '../../units/constants.ts'
import type { Metres, Ratio } from '../../units/quantity.ts'
import type { Limit } from './limits.ts'
import { assertCentredStriplinePair, type PairImpedances } from './striplinePair.ts'

/**
 * Centred pair of zero-thickness strips: exact by conformal mapping.
 *
 *     ke = tanh(πw/2b) tanh(π(w + s)/2b),   ko = tanh(πw/2b) coth(π(w + s)/2b)
 *     Z  = η0/(4 √εr) · K(k′)/K(k)
 *
 * With x = πw/2b and y = π(w + s)/2b the complements are ke′² = sech²x + tanh²x sech²y and
 * ko′² = sinh(y − x) sinh(y + x)/(cosh x sinh y)²: no difference of nearly equal numbers for wide or distant strips.
 *
 * Assumes: TEM, lossless, infinite planes, one dielectric, strips of zero thickness midway.
 * Source: S. B. Cohn, "Shielded coupled-strip transmission line", IRE Trans. MTT-3, Oct. 1955, pp. 29–38,
 * eqs. (1)–(5).
 */
export function striplinePairExact(pair: {
  readonly width: Metres
  readonly gap: Metres
  readonly spacing: Metres
  readonly relativePermittivity: Ratio
}): PairImpedances {
  const { width: w, gap: s, spacing: b, relativePermittivity: er } = pair
  assertCentredStriplinePair({ width: w, gap: s, spacing: b, thickness: 0, relativePermittivity: er })
  const x = (Math.PI * w) / (2 * b)
  const y = (Math.PI * (w + s)) / (2 * b)
  const tanhX = Math.tanh(x)
  const tanhY = Math.tanh(y)
  const coshX = Math.cosh(x)
  const coshY = Math.cosh(y)
  const even = tanhX * tanhY
  const evenComplement = Math.sqrt(1 / (coshX * coshX) + (tanhX / coshY) ** 2)
  const odd = tanhX / tanhY
  const oddComplement = Math.sqrt(Math.sinh(y - x) * Math.sinh(y + x)) / (coshX * coshY * tanhY)
  const scale = FREE_SPACE_IMPEDANCE / (4 * Math.sqrt(er))
  return {
    even: scale * ellipticRatio(evenComplement, even),
    odd: scale * ellipticRatio(oddComplement, odd),
  }
}

/** Exact for every width and gap, but only without thickness. */
export const LIMITS: readonly Limit[] = [{ quantity: 'thickness/spacing', min: 0, max: 0 }]
