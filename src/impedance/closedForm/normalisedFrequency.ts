import type { Hertz, Metres, Quantity } from '../../units/quantity.ts'

/** One GHz·mm in Hz·m. */
const GIGAHERTZ_MILLIMETRE = 1e6

/** fn = f h in GHz·mm, the variable of the microstrip dispersion formulas. 300 GHz·mm is one vacuum wavelength. */
export function normalisedFrequency(frequency: Hertz, height: Metres): Quantity<'GHz mm'> {
  if (!(frequency > 0 && height > 0)) {
    throw new RangeError(`dispersion needs frequency > 0 and height > 0, got ${frequency} Hz, ${height} m`)
  }
  return (frequency * height) / GIGAHERTZ_MILLIMETRE
}
