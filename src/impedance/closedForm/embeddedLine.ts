import { assertMicrostripLine, type MicrostripLine } from './microstripLine.ts'
import type { UniformSheet } from './sheetPermittivity.ts'

/** A microstrip line under a flat-topped cover of one or more sheets, the nearest first, air above. */
export interface EmbeddedLine extends MicrostripLine {
  readonly covers: readonly UniformSheet[]
}

/** Throws RangeError unless the line is sound and every sheet has thickness above 0 and permittivity of at least 1. */
export function assertEmbeddedLine(line: EmbeddedLine): void {
  assertMicrostripLine(line)
  const sound = line.covers.every(
    ({ thickness, relativePermittivity }) =>
      thickness > 0 && relativePermittivity >= 1 && Number.isFinite(thickness + relativePermittivity),
  )
  if (!(line.covers.length > 0 && sound)) {
    throw new RangeError(
      'embedded line needs covers of thickness > 0 and relative permittivity >= 1, got ' +
        line.covers.map((sheet) => `${sheet.thickness} m of ${sheet.relativePermittivity}`).join(', '),
    )
  }
}
