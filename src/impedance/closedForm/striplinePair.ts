import type { Metres, Ohms } from '../../units/quantity.ts'
import { assertCentredStripline, type CentredStripline } from './striplineLine.ts'

/** Two equal strips beside each other midway between two planes, one dielectric. */
export interface CentredStriplinePair extends CentredStripline {
  /** Edge to edge. */
  readonly gap: Metres
}

/** Throws RangeError unless each strip is a sound centred stripline and the gap is positive. */
export function assertCentredStriplinePair(pair: CentredStriplinePair): void {
  assertCentredStripline(pair)
  if (!(pair.gap > 0 && Number.isFinite(pair.gap))) {
    throw new RangeError(`stripline pair needs gap > 0, got ${pair.gap} m`)
  }
}

/** Even- and odd-mode impedance of a pair in one dielectric, whose modes share its permittivity. */
export interface PairImpedances {
  readonly even: Ohms
  readonly odd: Ohms
}
