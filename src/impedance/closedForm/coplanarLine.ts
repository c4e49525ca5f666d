import type { Metres } from '../../units/quantity.ts'
import { assertMicrostripLine, type MicrostripLine } from './microstripLine.ts'

/** A microstrip with ground in its own layer on both sides, wide and of the strip's thickness. */
export interface CoplanarLine extends MicrostripLine {
  /** Edge of the strip to edge of the ground, on each side. */
  readonly gap: Metres
}

/** Throws RangeError unless the strip is a sound microstrip and the gap is positive. */
export function assertCoplanarLine(line: CoplanarLine): void {
  assertMicrostripLine(line)
  if (!(line.gap > 0 && Number.isFinite(line.gap))) {
    throw new RangeError(`coplanar line needs gap > 0, got ${line.gap} m`)
  }
}
