import { bracketRoot } from '../../numerics/bracketRoot.ts'
import { FREE_SPACE_IMPEDANCE } from '../../units/constants.ts'
import type { Metres, Quantity } from '../../units/quantity.ts'
import type { Limit } from './limits.ts'
import { striplineExact } from './striplineExact.ts'
import { striplineExactWithThickness } from './striplineExactWithThickness.ts'
import type { CentredStripline } from './striplineLine.ts'
import {
  assertCentredStriplinePair,
  type CentredStriplinePair,
  type PairImpedances,
} from './striplinePair.ts'
import { striplinePairExact } from './striplinePairExact.ts'

type Siemens = Quantity<'S'>

/**
 * Centred pair of thick strips from the exact pair of thin ones. d is the widening that gives the thin single strip
 * the impedance of the thick one:
 *
 *     even: thin pair of width w + d [1 − ½ exp(−2.65 s/b)]: close together, the inner of the two edges is in shadow
 *     odd:  thin pair of width w + d, its admittance raised by the facing side walls, (2t/s η0) exp(−1.9 s/b), of which
 *           the planes draw off the more the farther they are apart
 *
 * Tends to the exact pair as t → 0 and to the thick single strip as s → ∞.
 * Assumes: TEM, lossless, infinite planes, one dielectric, rectangular strips midway.
 * Its two numbers: own fit, this project, to half of 500 cross-sections solved by boundary elements; the other half
 * agrees within 1.3 % (even) and 1.6 % (odd), 0.25 % rms.
 * Source of the base: S. B. Cohn, IRE Trans. MTT-3, Oct. 1955, pp. 29–38; thickness H. A. Wheeler, 1978.
 */
export function striplinePairThick(pair: CentredStriplinePair): PairImpedances {
  assertCentredStriplinePair(pair)
  const { width: w, gap: s, spacing: b } = pair
  const d = thinWidth(pair) - w
  const { even } = striplinePairExact({ ...pair, width: w + d * (1 - 0.5 * Math.exp((-2.65 * s) / b)) })
  const { odd } = striplinePairExact({ ...pair, width: w + d })
  return { even, odd: 1 / (1 / odd + sideWalls(pair)) }
}

/** Admittance that the facing side walls add to one strip in the odd mode. */
export function sideWalls(pair: CentredStriplinePair): Siemens {
  const { thickness: t, gap: s, spacing: b, relativePermittivity: er } = pair
  return ((2 * t * Math.sqrt(er)) / (s * FREE_SPACE_IMPEDANCE)) * Math.exp((-1.9 * s) / b)
}

/** The box in which the rule was fitted and checked. */
export const LIMITS: readonly Limit[] = [
  { quantity: 'width/spacing', min: 0.08, max: 2.5 },
  { quantity: 'gap/spacing', min: 0.08, max: 5 },
  { quantity: 'thickness/gap', min: 0, max: 0.8 },
  { quantity: 'thickness/width', min: 0, max: 0.8 },
]

/** Width of the strip without thickness that has the impedance of the thick one. */
function thinWidth(line: CentredStripline): Metres {
  if (line.thickness === 0) return line.width
  const wanted = striplineExactWithThickness(line)
  const excess = (width: Metres): number => striplineExact({ ...line, width }) - wanted
  // Copper that nearly fills the spacing acts like a strip wider by the share that it leaves.
  const widest =
    ((2 * line.width + 4 * line.thickness + 0.1 * line.spacing) * line.spacing) /
    (line.spacing - line.thickness)
  return bracketRoot(excess, 0.99 * line.width, widest)
}
