import type { DielectricSheet, SheetStack } from '../../section/crossSection.ts'
import type { Hertz, Metres } from '../../units/quantity.ts'
import { sheetPermittivity } from '../closedForm/sheetPermittivity.ts'
import { permittivityAt } from '../closedForm/widebandPermittivity.ts'

/**
 * Sheets of dielectric between a trace and its plane, nearest first, as one sheet: their total thickness, and the
 * permittivity that stands for them under a trace of the given width (see sheetPermittivity.ts), taken at the
 * given frequency.
 *
 * Throws RangeError for no sheets, or a sheet without thickness.
 */
export function sheetStack(sheets: readonly DielectricSheet[], width: Metres, frequency: Hertz): SheetStack {
  const thickness = sheets.reduce<Metres>((sum, sheet) => sum + sheet.thickness, 0)
  const uniform = sheets.map((sheet) => ({
    thickness: sheet.thickness,
    relativePermittivity: permittivityAt(sheet.permittivity, frequency).relative,
  }))
  return { thickness, relativePermittivity: sheetPermittivity(uniform, width) }
}
