import type { Metres, Ratio } from '../../units/quantity.ts'

/** A strip of rectangular section on a sheet of dielectric over one plane, air above. */
export interface MicrostripLine {
  readonly width: Metres
  readonly thickness: Metres
  /** From the plane to the strip's lower face. */
  readonly height: Metres
  readonly relativePermittivity: Ratio
}

/**
 * Throws RangeError unless the line has positive width and height, a thickness of zero or more, and a
 * relative permittivity of at least 1.
 */
export function assertMicrostripLine(line: MicrostripLine): void {
  const { width, thickness, height, relativePermittivity } = line
  const sound = width > 0 && height > 0 && thickness >= 0 && relativePermittivity >= 1
  if (!(sound && Number.isFinite(width + height + thickness + relativePermittivity))) {
    throw new RangeError(
      'microstrip needs width > 0, height > 0, thickness >= 0 and relative permittivity >= 1, got ' +
        `${width} m, ${height} m, ${thickness} m, ${relativePermittivity}`,
    )
  }
}
