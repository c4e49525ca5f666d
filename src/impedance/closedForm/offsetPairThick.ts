import type { Metres } from '../../units/quantity.ts'
import type { Limit } from './limits.ts'
import { offsetExactWithThickness } from './offsetExactWithThickness.ts'
import { assertOffsetStriplinePair, type OffsetStriplinePair } from './offsetStriplinePair.ts'
import { striplineExactWithThickness } from './striplineExactWithThickness.ts'
import type { CentredStriplinePair, PairImpedances } from './striplinePair.ts'
import { striplinePairThick } from './striplinePairThick.ts'

/**
 * Offset pair as two halves of centred pairs in parallel, corrected by what the halves of the single strip miss:
 *
 *     Zm = 2 Za Zb/(Za + Zb) · R^pm,   R = Z(offset single strip)/Z(its two halves in parallel)
 *     even: p = 1,   odd: p = 1 − exp(−0.24 s/near)
 *
 * Za has its planes 2 below + t apart, Zb 2 above + t; near is the smaller distance. The odd field of a close pair
 * stays in the gap and knows little of the planes; that of a distant one is the single strip's.
 *
 * Exactly the centred pair when centred, and the offset single strip as s → ∞.
 * Assumes: TEM, lossless, infinite planes, one dielectric, rectangular strips.
 * Own construction, this project, its one number fitted to half of 500 cross-sections solved by boundary elements; a
 * published closed form is not known.
 */
export function offsetPairThick(pair: OffsetStriplinePair): PairImpedances {
  assertOffsetStriplinePair(pair)
  const { lower, upper } = halfPairShapes(pair)
  const [below, above] = [striplinePairThick(lower), striplinePairThick(upper)]
  const alone = parallel(striplineExactWithThickness(lower), striplineExactWithThickness(upper))
  const correction = offsetExactWithThickness(pair) / alone
  const near = Math.min(pair.below, pair.above)
  const oddShare = -Math.expm1((-0.24 * pair.gap) / near)
  return {
    even: parallel(below.even, above.even) * correction,
    odd: parallel(below.odd, above.odd) * correction ** oddShare,
  }
}

/** The box in which it was fitted and checked. */
export const LIMITS: readonly Limit[] = [
  { quantity: 'width/near distance', min: 0.2, max: 6 },
  { quantity: 'gap/near distance', min: 0.2, max: 12 },
  { quantity: 'thickness/gap', min: 0, max: 0.8 },
  { quantity: 'thickness/width', min: 0, max: 0.8 },
  { quantity: 'distance ratio', min: 1, max: 5 },
]

/** The centred pairs whose halves make up the offset pair. */
export function halfPairShapes(pair: OffsetStriplinePair): {
  readonly lower: CentredStriplinePair
  readonly upper: CentredStriplinePair
} {
  const { width, thickness, gap, relativePermittivity } = pair
  const centred = (distance: Metres): CentredStriplinePair => ({
    ...{ width, thickness, gap, relativePermittivity },
    spacing: 2 * distance + thickness,
  })
  return { lower: centred(pair.below), upper: centred(pair.above) }
}

/** Of two halves of lines, each given as the whole line it is half of. */
function parallel(first: number, second: number): number {
  return (2 * first * second) / (first + second)
}
