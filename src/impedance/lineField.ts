import { SolverError } from '../numerics/solverError.ts'
import type { CrossSection } from '../section/crossSection.ts'
import type { Hertz } from '../units/quantity.ts'
import { permittivityIn } from './permittivityIn.ts'
import { type FieldPicture, fieldPicture } from './field/fieldPicture.ts'

/**
 * The field of a line as a picture, with permittivities taken at `frequency`; null where its equations are
 * singular to working precision: the line then has its numbers, and no picture.
 */
export function lineField(section: CrossSection, frequency: Hertz): FieldPicture | null {
  try {
    return fieldPicture(section, permittivityIn(frequency))
  } catch (error) {
    if (error instanceof SolverError) return null
    throw error
  }
}
