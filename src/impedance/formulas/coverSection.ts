import type { CrossSection, MaskCoat } from '../../section/crossSection.ts'
import type { Hertz, Metres } from '../../units/quantity.ts'
import type { CoveredLine } from '../closedForm/coveredLine.ts'
import type { EmbeddedLine } from '../closedForm/embeddedLine.ts'
import type { UniformSheet } from '../closedForm/sheetPermittivity.ts'
import { permittivityAt } from '../closedForm/widebandPermittivity.ts'
import { contrastOf } from './addedErrors.ts'
import { microstripSection, type MicrostripSection } from './microstripSection.ts'

/**
 * One thickness for a coat that is thinner over the trace than over the laminate: two thirds of that over the
 * laminate, one third of that over the trace.
 *
 * The field of a fine trace is strongest at its foot, in the laminate's mask beside it and along the side walls,
 * and weak above its top; so the thickness over the laminate counts for more. Against a boundary-element solution
 * of 850 lines with side walls coated between the two, this mean is as good as the rule is for an even coat; the
 * thickness over the trace alone would be up to 4 % high, that over the laminate alone up to 2.5 % low.
 */
function evenCoat(mask: MaskCoat): Metres {
  return (2 * mask.overLaminate + mask.overTrace) / 3
}

export interface CoatedSection extends MicrostripSection {
  readonly line: CoveredLine
}

/** A surface trace under mask, the mask as an even coat, with what its unevenness adds to the error. */
export function coatedSection(
  section: CrossSection,
  mask: MaskCoat,
  width: Metres,
  frequency: Hertz,
): CoatedSection {
  const { line, values, added } = microstripSection(section, width, frequency)
  const coverThickness = evenCoat(mask)
  const coverPermittivity = permittivityAt(mask.permittivity, frequency).relative
  const thick = Math.max(mask.overLaminate, mask.overTrace)
  const thin = Math.min(mask.overLaminate, mask.overTrace)
  return {
    line: { ...line, coverThickness, coverPermittivity },
    values: {
      ...values,
      'coat thickness/height': coverThickness / line.height,
      'coat permittivity': coverPermittivity,
      'permittivity contrast': contrastOf([line.relativePermittivity, coverPermittivity]),
    },
    added: [
      ...added,
      { error: UNEVEN_COAT * (1 - thin / thick), cause: 'plus an uneven coat as an even one (own fit)' },
    ],
  }
}

export interface EmbeddedSection extends MicrostripSection {
  readonly line: EmbeddedLine
  /** Of the whole cover, and its mean permittivity weighted by thickness, for forms that know one cover. */
  readonly asOne: CoveredLine
}

/**
 * A trace under dielectric with one plane. Mask on the outer face is one more sheet of the cover, as thick as over
 * laminate. What differs in permittivity from substrate to cover adds to the error.
 */
export function embeddedSection(section: CrossSection, width: Metres, frequency: Hertz): EmbeddedSection {
  const { line, values, added } = microstripSection(section, width, frequency)
  const covers = coversOf(section, frequency)
  const coverThickness = covers.reduce((sum, sheet) => sum + sheet.thickness, 0)
  const coverPermittivity =
    covers.reduce((sum, sheet) => sum + sheet.thickness * sheet.relativePermittivity, 0) / coverThickness
  const permittivities = [line.relativePermittivity, ...covers.map((sheet) => sheet.relativePermittivity)]
  const contrast = contrastOf(permittivities)
  return {
    line: { ...line, covers },
    asOne: { ...line, coverThickness, coverPermittivity },
    values: {
      ...values,
      'cover/height': coverThickness / line.height,
      'cover permittivity': coverPermittivity,
      'permittivity contrast': contrast,
    },
    added: [
      ...added,
      { error: COVER_CONTRAST * (contrast - 1), cause: 'plus substrate and cover of different permittivity' },
    ],
  }
}

function coversOf(section: CrossSection, frequency: Hertz): UniformSheet[] {
  const { above, mask } = section
  const sheets =
    mask === null ? above : [...above, { thickness: mask.overLaminate, permittivity: mask.permittivity }]
  return sheets.map(({ thickness, permittivity }) => ({
    thickness,
    relativePermittivity: permittivityAt(permittivity, frequency).relative,
  }))
}

/** Worst against a boundary-element solution, rounded up: per unit of 1 − thin/thick, and of contrast less one. */
const UNEVEN_COAT = 0.01
const COVER_CONTRAST = 0.035
