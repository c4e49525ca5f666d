import type { Metres, Ratio } from '../../units/quantity.ts'

/** A strip of rectangular section anywhere between two planes, one dielectric. */
export interface OffsetStripline {
  readonly width: Metres
  readonly thickness: Metres
  /** From the strip's lower face to the lower plane. */
  readonly below: Metres
  /** From the strip's upper face to the upper plane. */
  readonly above: Metres
  readonly relativePermittivity: Ratio
}

/** Throws RangeError unless width and distances are positive, thickness is not negative and εr >= 1. */
export function assertOffsetStripline(line: OffsetStripline): void {
  const { width, thickness, below, above, relativePermittivity } = line
  const sound = width > 0 && below > 0 && above > 0 && thickness >= 0 && relativePermittivity >= 1
  if (!(sound && Number.isFinite(width + below + above + thickness + relativePermittivity))) {
    throw new RangeError(
      'offset stripline needs width, distances > 0, thickness >= 0 and relative permittivity >= 1, got ' +
        `${width} m, ${below} m, ${above} m, ${thickness} m, ${relativePermittivity}`,
    )
  }
}
