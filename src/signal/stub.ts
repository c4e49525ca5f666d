import type { DataRate } from '../board/nets.ts'
import { SPEED_OF_LIGHT } from '../units/constants.ts'
import type { Hertz, Metres, Quantity, Ratio } from '../units/quantity.ts'

/**
 * Pads and the planes that a barrel passes load it, so that waves run slower in it than in the dielectric:
 * the permittivity around it is raised by this factor. Common practice, no source: 1.1 to 1.5. A 40 ohm barrel of
 * 1 mm that ends on a pad of 0.05 pF comes to 1.6.
 */
export const STUB_LOADING: Ratio = 1.3

/** 0.3 inch at 1 Gb/s, in metres times bits per second. */
const LENGTH_TIMES_BIT_RATE: Quantity<'m bit/s'> = 7.62e6

export const STUB_RULE_SOURCE =
  'a tenth of the stub whose null falls on Nyquist, 0.3 inch over Gb/s: E. Bogatin, quoted by D. Telian, "Fixing the problem of stubs", Signal Integrity Journal, article 2962'

/**
 * Frequency at which a stub open at its end is a quarter wave long and shorts the line it hangs on:
 * f = c / (4 L √(εr · loading)).
 *
 * Throws RangeError unless length is positive, permittivity and loading at least 1.
 */
export function quarterWaveNull(length: Metres, permittivity: Ratio, loading: Ratio = STUB_LOADING): Hertz {
  if (!(length > 0)) throw new RangeError(`stub length must be above 0, got ${length} m`)
  if (!(permittivity >= 1)) throw new RangeError(`permittivity must be 1 or more, got ${permittivity}`)
  if (!(loading >= 1)) throw new RangeError(`loading must be 1 or more, got ${loading}`)
  return SPEED_OF_LIGHT / (4 * length * Math.sqrt(permittivity * loading))
}

/**
 * Longest stub that the rule of thumb accepts. The rule is stated for two levels, where the bit rate is twice
 * Nyquist; with more levels the Nyquist frequency counts, as it is what the null must stay clear of.
 */
export function longestStub(rate: DataRate): Metres {
  if (!(rate.nyquist > 0)) throw new RangeError(`Nyquist frequency must be above 0, got ${rate.nyquist} Hz`)
  return LENGTH_TIMES_BIT_RATE / (2 * rate.nyquist)
}
