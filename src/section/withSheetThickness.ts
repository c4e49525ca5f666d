import type { Metres } from '../units/quantity.ts'
import type { CrossSection, DielectricSheet } from './crossSection.ts'

/** Sides of a trace on which a dielectric lies against it. */
export type Side = 'below' | 'above'

/**
 * The section with another pressed thickness, in metres, of the sheet next to the trace on one side: what `deriveSection`
 * makes of the stackup with that dielectric changed, without looking through the stackup again.
 *
 * Throws RangeError when no sheet lies there or the thickness is not positive.
 */
export function withSheetThickness(section: CrossSection, side: Side, thickness: Metres): CrossSection {
  if (!(thickness > 0)) throw new RangeError(`dielectric thickness must be above 0, got ${thickness} m`)
  return side === 'below'
    ? { ...section, below: changed(section.below, thickness) }
    : { ...section, above: changed(section.above, thickness) }
}

function changed([nearest, ...others]: readonly DielectricSheet[], thickness: Metres): DielectricSheet[] {
  if (nearest === undefined) throw new RangeError('no dielectric lies on this side of the trace')
  return [{ ...nearest, thickness }, ...others]
}
