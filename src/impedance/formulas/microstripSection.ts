import type { CrossSection } from '../../section/crossSection.ts'
import type { Hertz, Metres } from '../../units/quantity.ts'
import type { LineConstants } from '../closedForm/lineConstants.ts'
import type { MicrostripLine } from '../closedForm/microstripLine.ts'
import type { Modes } from '../estimate.ts'
import { narrowingError, sheetsError } from './addedErrors.ts'
import type { AddedError, Region } from './claim.ts'
import { sheetStack } from './sheetStack.ts'

/** A section with one plane, prepared for a kernel. */
export interface MicrostripSection {
  readonly line: MicrostripLine
  readonly values: Readonly<Record<string, number>>
  readonly added: readonly AddedError[]
}

/**
 * The strip of the given equivalent width on the sheets below as one, with the ratios that limits speak of and
 * the errors that trapezoid and layers add.
 */
export function microstripSection(section: CrossSection, width: Metres, frequency: Hertz): MicrostripSection {
  const { thickness: height, relativePermittivity } = sheetStack(section.below, width, frequency)
  const { thickness } = section.trace
  return {
    line: { width, thickness, height, relativePermittivity },
    values: {
      'width/height': width / height,
      'thickness/height': thickness / height,
      'thickness/width': thickness / width,
      'relative permittivity': relativePermittivity,
    },
    added: [narrowingError(section.trace), sheetsError(section.below, frequency)],
  }
}

export function singleMode(line: LineConstants): Modes {
  return { kind: 'single', line }
}

/** The box of ratios in which the single microstrip forms were compared with the boundary-element solution. */
export const MEASURED_BOX: Region['limits'] = [
  { quantity: 'width/height', min: 0.15, max: 6 },
  { quantity: 'thickness/height', min: 0, max: 1 },
  { quantity: 'thickness/width', min: 0, max: 1 },
]

/** A wider box, met by fewer lines. */
export const WIDER_BOX: Region['limits'] = [
  { quantity: 'width/height', min: 0.05, max: 20 },
  { quantity: 'thickness/height', min: 0, max: 2 },
  { quantity: 'thickness/width', min: 0, max: 1.5 },
]
