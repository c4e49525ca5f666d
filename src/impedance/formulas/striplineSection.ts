import type { CrossSection, DielectricSheet } from '../../section/crossSection.ts'
import type { Hertz, Metres, Ratio } from '../../units/quantity.ts'
import { striplineEquivalentWidth } from '../closedForm/trapezoidWidth.ts'
import type { TwoDielectricStripline } from '../closedForm/twoDielectricStripline.ts'
import { contrastOf, narrowingError, sheetsError } from './addedErrors.ts'
import type { AddedError } from './claim.ts'
import { sheetStack } from './sheetStack.ts'

/** A section with two planes, prepared for a kernel. */
export interface StriplineSection {
  readonly line: TwoDielectricStripline
  readonly contrast: Ratio
  readonly values: Readonly<Record<string, number>>
  readonly added: readonly AddedError[]
}

/**
 * The strip of equivalent width between the sheets below and above, each side as one, with the ratios that limits
 * speak of and the errors that trapezoid and layers add.
 */
export function striplineSection(section: CrossSection, frequency: Hertz): StriplineSection {
  const { thickness } = section.trace
  const { width } = striplineOutline(section)
  const below = sheetStack(section.below, width, frequency)
  const above = sheetStack(section.above, width, frequency)
  const near = Math.min(below.thickness, above.thickness)
  const spacing = below.thickness + thickness + above.thickness
  const contrast = contrastOf([below.relativePermittivity, above.relativePermittivity])
  return {
    line: {
      width,
      thickness,
      below: below.thickness,
      above: above.thickness,
      permittivityBelow: below.relativePermittivity,
      permittivityAbove: above.relativePermittivity,
    },
    contrast,
    values: {
      'width/(spacing - thickness)': width / (spacing - thickness),
      'thickness/spacing': thickness / spacing,
      'thickness/width': thickness / width,
      'width/near distance': width / near,
      'thickness/near distance': thickness / near,
      'distance ratio': Math.max(below.thickness, above.thickness) / near,
      'permittivity contrast': contrast,
    },
    added: [
      narrowingError(section.trace),
      sheetsError(section.below, frequency),
      sheetsError(section.above, frequency),
    ],
  }
}

export interface StriplineOutline {
  /** Equivalent width of the trapezoid. */
  readonly width: Metres
  readonly thickness: Metres
  /** Between the facing surfaces of the planes. */
  readonly spacing: Metres
  /** Distance of the farther plane over that of the nearer. */
  readonly distanceRatio: Ratio
}

/** The geometry alone, for forms that answer for some shapes only. */
export function striplineOutline(section: CrossSection): StriplineOutline {
  const { width: foot, topWidth: top, thickness } = section.trace
  const below = totalThickness(section.below)
  const above = totalThickness(section.above)
  return {
    width: striplineEquivalentWidth({ foot, top }, below, above),
    thickness,
    spacing: below + thickness + above,
    distanceRatio: Math.max(below, above) / Math.min(below, above),
  }
}

function totalThickness(sheets: readonly DielectricSheet[]): Metres {
  return sheets.reduce<Metres>((sum, sheet) => sum + sheet.thickness, 0)
}
