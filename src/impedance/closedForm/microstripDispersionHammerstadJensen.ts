import { FREE_SPACE_IMPEDANCE, MAGNETIC_CONSTANT } from '../../units/constants.ts'
import type { Hertz, Metres, Ratio } from '../../units/quantity.ts'
import type { LineConstants } from './lineConstants.ts'
import { approach } from './microstripDispersionKirschningJansen.ts'

/**
 * Impedance and effective permittivity of a microstrip at a frequency, from the static ones: the simpler form.
 *
 *     εeff(f) = εr − (εr − εeff)/[1 + G (f/fp)²],   fp = Z/(2 µ0 h),   G = (π²/12) (εr − 1)/εeff · √(2π Z/η0)
 *     Z(f)    = Z √(εeff/εeff(f)) (εeff(f) − 1)/(εeff − 1)
 *
 * Belongs to another definition of impedance than the power–current form: they differ by less than 0.5 % up to
 * f h = 3 GHz·mm.
 * Source: E. Hammerstad, O. Jensen, IEEE MTT-S Int. Microwave Symposium Digest, 1980, pp. 407–409, after
 * W. J. Getsinger, "Microstrip dispersion model", IEEE Trans. MTT-21, 1973, pp. 34–39 (from memory).
 * Throws RangeError unless frequency and height are positive and the effective permittivity is above 1.
 */
export function microstripDispersionHammerstadJensen(
  line: { readonly height: Metres; readonly relativePermittivity: Ratio },
  statics: LineConstants,
  frequency: Hertz,
): LineConstants {
  const { height: h, relativePermittivity: er } = line
  const { impedance: z, effectivePermittivity: ee } = statics
  if (!(frequency > 0 && h > 0 && ee > 1)) {
    throw new RangeError(
      `dispersion needs frequency > 0, height > 0 and effective permittivity > 1, got ${frequency} Hz, ${h} m, ${ee}`,
    )
  }
  const fp = z / (2 * MAGNETIC_CONSTANT * h)
  const G = ((Math.PI ** 2 / 12) * (er - 1) * Math.sqrt((2 * Math.PI * z) / FREE_SPACE_IMPEDANCE)) / ee
  const eef = approach(er, ee, G * (frequency / fp) ** 2)
  return { impedance: z * Math.sqrt(ee / eef) * ((eef - 1) / (ee - 1)), effectivePermittivity: eef }
}
