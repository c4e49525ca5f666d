import type { Metres, Ratio } from '../../units/quantity.ts'

/** A strip of rectangular section midway between two planes, one dielectric. */
export interface CentredStripline {
  readonly width: Metres
  readonly thickness: Metres
  /** Between the facing surfaces of the planes, the strip included. */
  readonly spacing: Metres
  readonly relativePermittivity: Ratio
}

/**
 * Throws RangeError unless width and spacing are positive, the thickness is zero or more and below the
 * spacing, and the relative permittivity is at least 1.
 */
export function assertCentredStripline(line: CentredStripline): void {
  const { width, thickness, spacing, relativePermittivity } = line
  const sound = width > 0 && thickness >= 0 && spacing > thickness && relativePermittivity >= 1
  if (!(sound && Number.isFinite(width + spacing + relativePermittivity))) {
    throw new RangeError(
      'stripline needs width > 0, 0 <= thickness < spacing and relative permittivity >= 1, got ' +
        `${width} m, ${thickness} m, ${spacing} m, ${relativePermittivity}`,
    )
  }
}
