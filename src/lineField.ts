/** The picture of one line: its cross-section and lines of equal potential. */
import type { FieldPicture } from './impedance/field/fieldPicture.ts'
import type { LineImpedance } from './impedance/estimate.ts'
import { lineField } from './impedance/lineField.ts'

/** Null where the field has no solution to working precision. */
export function fieldOfLine({ section, frequency }: LineImpedance): FieldPicture | null {
  return lineField(section, frequency)
}
