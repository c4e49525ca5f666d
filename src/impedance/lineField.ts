import type { CrossSection } from '../section/crossSection.ts'
import type { Hertz } from '../units/quantity.ts'
import { type FieldPicture, fieldPicture } from './field/fieldPicture.ts'
import { ifSolvable } from '../numerics/ifSolvable.ts'
import { permittivityIn } from './permittivityIn.ts'

/**
 * The field of a line as a picture, with permittivities taken at `frequency`; null where the section is beyond the
 * field solution: the line then has its numbers, and no picture.
 */
export function lineField(section: CrossSection, frequency: Hertz): FieldPicture | null {
  return ifSolvable(() => fieldPicture(section, permittivityIn(frequency)))
}
