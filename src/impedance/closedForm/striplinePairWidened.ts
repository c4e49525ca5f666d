import { bracketRoot } from '../../numerics/bracketRoot.ts'
import type { Metres } from '../../units/quantity.ts'
import type { Limit } from './limits.ts'
import { striplineExact } from './striplineExact.ts'
import type { CentredStripline } from './striplineLine.ts'
import {
  assertCentredStriplinePair,
  type CentredStriplinePair,
  type PairImpedances,
} from './striplinePair.ts'
import { striplinePairCohnModes } from './striplinePairCohn.ts'
import { striplinePairExact } from './striplinePairExact.ts'
import { striplineWheeler } from './striplineWheeler.ts'

/**
 * Centred pair of thick strips, for strips of any proportion:
 *
 *     even: the exact thin pair of width w + d [1 − 0.47 exp(−2.69 s/b)] at the same gap, where w + d is the width of
 *           the thin single strip that has the impedance of the thick one (Wheeler 1978)
 *     odd:  the lower of Cohn's near and distant forms, which err on the high side where they do not belong
 *
 * Tends to the exact thin pair as t → 0, within the 0.5 % that Wheeler 1978 is off there, and to the single strip as s → ∞.
 * Assumes: TEM, lossless, infinite planes, one dielectric, rectangular strips midway.
 * Even mode and choice: own fit, this project; on 600 cross-sections with t/s and t/w up to 1 a boundary-element
 * solution agrees within 2.7 % (even) and 2.5 % (odd).
 * Source of the base: S. B. Cohn, IRE Trans. MTT-3, Oct. 1955, pp. 29–38; H. A. Wheeler, IEEE Trans. MTT-26, 1978.
 */
export function striplinePairWidened(pair: CentredStriplinePair): PairImpedances {
  assertCentredStriplinePair(pair)
  const { gap: s, spacing: b } = pair
  const { oddDistant, oddNear } = striplinePairCohnModes(pair)
  const widening = thinWidth(pair) - pair.width
  const width = pair.width + widening * (1 - 0.47 * Math.exp((-2.69 * s) / b))
  return { even: striplinePairExact({ ...pair, width }).even, odd: Math.min(oddNear, oddDistant) }
}

/** The box in which the rule was fitted and checked. */
export const LIMITS: readonly Limit[] = [
  { quantity: 'thickness/gap', min: 0, max: 1 },
  { quantity: 'thickness/width', min: 0, max: 1 },
]

/** Width of the strip without thickness that has the impedance of the thick one. */
export function thinWidth(line: CentredStripline): Metres {
  const air = { ...line, relativePermittivity: 1 }
  const wanted = striplineWheeler(air)
  const excess = (width: Metres): number => striplineExact({ ...air, width }) - wanted
  // Wheeler 1978 is up to 0.5 % off at zero thickness too, either way: hence the lower end below the width itself.
  // Copper that nearly fills the spacing acts like a strip wider by the share that it leaves.
  const widest =
    ((2 * line.width + 4 * line.thickness + 0.1 * line.spacing) * line.spacing) /
    (line.spacing - line.thickness)
  return bracketRoot(excess, 0.9 * line.width, widest)
}
