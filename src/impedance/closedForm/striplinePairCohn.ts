import { FREE_SPACE_IMPEDANCE } from '../../units/constants.ts'
import type { Ohms } from '../../units/quantity.ts'
import type { Limit } from './limits.ts'
import { striplineCornerFringing } from './striplineCohn.ts'
import { striplineExact } from './striplineExact.ts'
import {
  assertCentredStriplinePair,
  type CentredStriplinePair,
  type PairImpedances,
} from './striplinePair.ts'
import { striplinePairExact } from './striplinePairExact.ts'
import { striplineWheeler } from './striplineWheeler.ts'

/**
 * Centred pair of thick strips, from the exact thin pair and single lines with and without thickness. In air, the
 * impedances divided by √εr at the end:
 *
 *     even:                   1/Ze = 1/Z(t) − [Cf(t/b)/Cf(0)] [1/Z(0) − 1/Ze(0)]
 *     odd, distant (s/t ≥ 5): 1/Zo = 1/Z(t) + [Cf(t/b)/Cf(0)] [1/Zo(0) − 1/Z(0)]
 *     odd, near (s/t < 5):    1/Zo = 1/Zo(0) + 1/Z(t) − 1/Z(0) − (2/η0)[Cf(t/b) − Cf(0)]/ε + 2t/(η0 s)
 *
 * Z(t) by Wheeler 1978, Z(0) exact. The two odd forms do not meet at s/t = 5: there the distant one is up to 7 % above
 * the near one for thin strips narrow in their space, and up to 7 % below it for strips as thick as wide.
 *
 * Assumes: TEM, lossless, infinite planes, one dielectric, rectangular strips midway.
 * Stated for w/(b − t) ≥ 0.35 and t/b < 0.1. A boundary-element solution agrees within 3.9 % for such widths; for
 * narrower strips about as thick as wide, the even mode is up to 9 % off.
 * Source: S. B. Cohn, "Shielded coupled-strip transmission line", IRE Trans. MTT-3, Oct. 1955, pp. 29–38 (from memory).
 */
export function striplinePairCohn(pair: CentredStriplinePair): PairImpedances {
  const modes = striplinePairCohnModes(pair)
  return { even: modes.even, odd: pair.gap >= DISTANT * pair.thickness ? modes.oddDistant : modes.oddNear }
}

/** s/t from which on the strips count as distant. */
const DISTANT = 5

const THIN_FRINGING = striplineCornerFringing(0)

export const LIMITS: readonly Limit[] = [
  { quantity: 'width/(spacing - thickness)', min: 0.35, max: 10 },
  { quantity: 'thickness/spacing', min: 0, max: 0.1 },
]

/** All three forms. */
export function striplinePairCohnModes(pair: CentredStriplinePair): {
  readonly even: Ohms
  readonly oddDistant: Ohms
  readonly oddNear: Ohms
} {
  assertCentredStriplinePair(pair)
  const { width, thickness: t, gap: s, spacing: b } = pair
  const air = { width, thickness: t, gap: s, spacing: b, relativePermittivity: 1 }
  const thick = 1 / striplineWheeler(air)
  const thin = 1 / striplineExact(air)
  const { even, odd } = striplinePairExact(air)
  const fringing = striplineCornerFringing(t / b)
  const growth = fringing / THIN_FRINGING
  const corners = (2 * (fringing - THIN_FRINGING)) / FREE_SPACE_IMPEDANCE
  const walls = (2 * t) / (FREE_SPACE_IMPEDANCE * s)
  const scale = 1 / Math.sqrt(pair.relativePermittivity)
  return {
    even: scale / (thick - growth * (thin - 1 / even)),
    oddDistant: scale / (thick + growth * (1 / odd - thin)),
    oddNear: scale / (1 / odd + thick - thin - corners + walls),
  }
}
