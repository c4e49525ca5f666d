import type { Metres } from '../../units/quantity.ts'
import { assertOffsetStripline, type OffsetStripline } from './offsetStripline.ts'

/** Two equal strips beside each other anywhere between two planes, one dielectric. */
export interface OffsetStriplinePair extends OffsetStripline {
  /** Edge to edge. */
  readonly gap: Metres
}

/** Throws RangeError unless each strip is a sound offset stripline and the gap is positive. */
export function assertOffsetStriplinePair(pair: OffsetStriplinePair): void {
  assertOffsetStripline(pair)
  if (!(pair.gap > 0 && Number.isFinite(pair.gap))) {
    throw new RangeError(`stripline pair needs gap > 0, got ${pair.gap} m`)
  }
}
