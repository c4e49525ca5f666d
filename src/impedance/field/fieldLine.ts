import type { CrossSection } from '../../section/crossSection.ts'
import { checkSection } from './checkSection.ts'
import type { Refinement } from './panels.ts'
import { type FieldModes, problemModes } from './problemModes.ts'
import { type RelativePermittivity, sectionProblem } from './sectionProblem.ts'

export type { FieldModes } from './problemModes.ts'

/**
 * Modes of a cross-section at one refinement, between unbroken planes.
 *
 * Throws RangeError when a length or a permittivity is not fit for it, and when the picture needs more unknowns than
 * are solved.
 */
export function fieldModes(
  section: CrossSection,
  relative: RelativePermittivity,
  refinement: Refinement,
): FieldModes {
  checkSection(section, relative)
  return problemModes(sectionProblem(section, relative), section.arrangement, refinement)
}
