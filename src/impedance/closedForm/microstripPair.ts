import type { Metres } from '../../units/quantity.ts'
import { assertMicrostripLine, type MicrostripLine } from './microstripLine.ts'

/** Two equal strips beside each other on a sheet of dielectric over one plane, air above. */
export interface MicrostripPair extends MicrostripLine {
  /** Edge to edge. */
  readonly gap: Metres
}

/** Throws RangeError unless each strip is a sound microstrip and the gap is positive. */
export function assertMicrostripPair(pair: MicrostripPair): void {
  assertMicrostripLine(pair)
  if (!(pair.gap > 0 && Number.isFinite(pair.gap))) {
    throw new RangeError(`microstrip pair needs gap > 0, got ${pair.gap} m`)
  }
}
