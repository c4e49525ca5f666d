import type { Ratio } from '../../units/quantity.ts'
import type { OffsetStripline } from './offsetStripline.ts'

/** An offset strip that stands on one dielectric, its body inside the other. */
export interface TwoDielectricStripline extends Omit<OffsetStripline, 'relativePermittivity'> {
  readonly permittivityBelow: Ratio
  readonly permittivityAbove: Ratio
}

/** Throws RangeError unless both permittivities are at least 1. */
export function assertTwoDielectrics(line: TwoDielectricStripline): void {
  const { permittivityBelow, permittivityAbove } = line
  if (!(permittivityBelow >= 1 && permittivityAbove >= 1)) {
    throw new RangeError(
      `stripline needs relative permittivities >= 1, got ${permittivityBelow} and ${permittivityAbove}`,
    )
  }
}
