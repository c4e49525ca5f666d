import type { Metres, Ratio } from '../../units/quantity.ts'
import { assertMicrostripLine, type MicrostripLine } from './microstripLine.ts'

/** A microstrip line under one further dielectric, air above that. */
export interface CoveredLine extends MicrostripLine {
  /** Conformal coat: its thickness everywhere. Flat-topped cover: from the strip's upper face to the air. */
  readonly coverThickness: Metres
  readonly coverPermittivity: Ratio
}

/** Throws RangeError unless the line is sound, its cover not negative and of a permittivity of at least 1. */
export function assertCoveredLine(line: CoveredLine): void {
  assertMicrostripLine(line)
  const { coverThickness, coverPermittivity } = line
  if (!(
    coverThickness >= 0 &&
    coverPermittivity >= 1 &&
    Number.isFinite(coverThickness + coverPermittivity)
  )) {
    throw new RangeError(
      `cover needs thickness >= 0 and relative permittivity >= 1, got ${coverThickness} m, ${coverPermittivity}`,
    )
  }
}
