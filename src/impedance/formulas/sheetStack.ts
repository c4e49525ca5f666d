import type { DielectricSheet, SheetStack } from '../../section/crossSection.ts'
import type { Hertz, Metres, Ratio } from '../../units/quantity.ts'
import { permittivityAt } from '../closedForm/widebandPermittivity.ts'

/**
 * Sheets of dielectric between two coppers as one: their total thickness d, and the permittivity that a wide plate
 * capacitor would show, the sheets being in series:
 *
 *     ε = d/Σ(di/εi)
 *
 * at the given frequency. Exact under a wide trace; see `sheetContrast` for what it costs under a narrow one.
 *
 * Throws RangeError for no sheets, or a sheet without thickness.
 */
export function sheetStack(sheets: readonly DielectricSheet[], frequency: Hertz): SheetStack {
  const thickness = sheets.reduce<Metres>((sum, sheet) => sum + sheet.thickness, 0)
  if (!(thickness > 0 && sheets.every((sheet) => sheet.thickness > 0))) {
    throw new RangeError(
      `sheets need thickness > 0 m, got ${sheets.map((sheet) => sheet.thickness).join(', ')}`,
    )
  }
  const inverse = sheets.reduce((sum, sheet) => sum + sheet.thickness / permittivityOf(sheet, frequency), 0)
  return { thickness, relativePermittivity: thickness / inverse }
}

export function permittivityOf(sheet: DielectricSheet, frequency: Hertz): Ratio {
  return permittivityAt(sheet.permittivity, frequency).relative
}
