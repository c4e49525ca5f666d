import type { Hertz, Metres, Ratio } from '../../units/quantity.ts'
import type { Limit } from './limits.ts'
import { normalisedFrequency } from './normalisedFrequency.ts'

/** What the dispersion of a microstrip depends on besides its static constants. */
export interface DispersiveMicrostrip {
  readonly width: Metres
  readonly height: Metres
  readonly relativePermittivity: Ratio
}

/**
 * Effective permittivity of a microstrip at a frequency, from its static value. With u = w/h, fn = f h in GHz·mm:
 *
 *     εeff(f) = εr − (εr − εeff(0))/(1 + P),   P = P1 P2 [(0.1844 + P3 P4) fn]^1.5763
 *
 * On printed boards a small correction: h = 0.1 mm, u = 1, εr = 4.2 gives +0.15 % at 10 GHz, +1.5 % at 50 GHz.
 * The print has f h in GHz·cm, hence 0.157 and 3.87 there; copies that mix the two are wrong.
 *
 * Assumes: fundamental mode, thin strip. Stated by the authors: 0.6 %.
 * Source: M. Kirschning, R. H. Jansen, "Accurate model for effective dielectric constant of microstrip with validity up
 * to millimetre-wave frequencies", Electronics Letters 18, 1982, pp. 272–273.
 */
export function microstripDispersionKirschningJansen(
  line: DispersiveMicrostrip,
  staticPermittivity: Ratio,
  frequency: Hertz,
): Ratio {
  const { width: w, height: h, relativePermittivity: er } = line
  const fn = normalisedFrequency(frequency, h)
  const { P1P2, P3P4 } = dispersionTerms(w / h, er, fn)
  return approach(er, staticPermittivity, P1P2 * ((0.1844 + P3P4) * fn) ** 1.5763)
}

/** h/λ0 ≤ 0.13. */
export const LIMITS: readonly Limit[] = [
  { quantity: 'width/height', min: 0.1, max: 100 },
  { quantity: 'relative permittivity', min: 1, max: 20 },
  { quantity: 'height/wavelength', min: 0, max: 0.13 },
]

/** εr − (εr − εeff(0))/(1 + P): from the static value at P = 0 towards εr. */
export function approach(er: Ratio, staticPermittivity: Ratio, P: number): Ratio {
  return er - (er - staticPermittivity) / (1 + P)
}

/** P1 P2 and P3 P4 of the paper; the coupled-line equations of the same authors take them over. */
export function dispersionTerms(
  u: Ratio,
  er: Ratio,
  fn: number,
): { readonly P1P2: number; readonly P3P4: number } {
  const P1 = 0.27488 + (0.6315 + 0.525 / (1 + 0.0157 * fn) ** 20) * u - 0.065683 * Math.exp(-8.7513 * u)
  const P2 = 0.33622 * (1 - Math.exp(-0.03442 * er))
  const P3 = 0.0363 * Math.exp(-4.6 * u) * (1 - Math.exp(-((fn / 38.7) ** 4.97)))
  const P4 = 1 + 2.751 * (1 - Math.exp(-((er / 15.916) ** 8)))
  return { P1P2: P1 * P2, P3P4: P3 * P4 }
}
