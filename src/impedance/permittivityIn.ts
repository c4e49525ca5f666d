import type { DielectricSheet } from '../section/crossSection.ts'
import type { Hertz, Ratio } from '../units/quantity.ts'
import { permittivityAt } from './closedForm/widebandPermittivity.ts'

/** What the field solution asks of a sheet: its relative permittivity at the frequency of the solution. */
export function permittivityIn(frequency: Hertz): (sheet: Pick<DielectricSheet, 'permittivity'>) => Ratio {
  return ({ permittivity }) => permittivityAt(permittivity, frequency).relative
}
