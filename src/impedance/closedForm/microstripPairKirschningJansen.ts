import { positivePower } from '../../numerics/positivePower.ts'
import { FREE_SPACE_IMPEDANCE } from '../../units/constants.ts'
import type { Ohms, Ratio } from '../../units/quantity.ts'
import type { Limit } from './limits.ts'
import type { LineConstants } from './lineConstants.ts'
import { airImpedance, zeroThicknessPermittivity } from './microstripHammerstadJensen.ts'
import { assertMicrostripPair, type MicrostripPair } from './microstripPair.ts'
import type { PairConstants } from './pairConstants.ts'

/**
 * Edge-coupled microstrip of zero thickness, quasi-static. With u = w/h and g = s/h, single-line values (Z0, ee0) and
 * exponents a, b of Hammerstad and Jensen:
 *
 *     even: v = u (20 + g²)/(10 + g²) + g e^(−g),   εeff = (εr + 1)/2 + (εr − 1)/2 · (1 + 10/v)^(−a(v) b(εr))
 *           Z = Z0 √(ee0/εeff) / [1 − (Z0/η0) √ee0 Q4]
 *     odd:  εeff = [(εr + 1)/2 + ao − ee0] exp(−co g^do) + ee0
 *           Z = Z0 √(ee0/εeff) / [1 − (Z0/η0) √ee0 Q10]
 *
 * Z0 √ee0 is the impedance of the single line in air, so that only εeff knows the dielectric. The thickness is ignored:
 * for copper of printed boards use the thickness rules.
 *
 * Assumes: lossless, one infinite plane, one homogeneous sheet, equal strips. Stated by the authors: 0.7 % for the
 * impedances. A boundary-element solution agrees within 0.8 % except near w/h = 10, s/h = 0.1 (odd, 1.6 %).
 * Source: M. Kirschning, R. H. Jansen, "Accurate wide-range design equations for the frequency-dependent
 * characteristic of parallel coupled microstrip lines", IEEE Trans. MTT-32, 1984, pp. 83–90, eqs. (3)–(9) and
 * Q1–Q10; corrections MTT-33, 1985, p. 288.
 */
export function microstripPairKirschningJansen(pair: MicrostripPair): PairConstants {
  assertMicrostripPair(pair)
  const { width: w, gap: s, height: h, relativePermittivity: er } = pair
  const u = w / h
  const g = s / h
  const air = airImpedance(u)
  const Q2 = gapFactor(g)
  const Q4 = evenCoupling(u, g, Q2)
  return {
    even: mode(air, Q4, evenPermittivity(u, g, er)),
    odd: mode(air, Q4 - oddExcess(u, g, Q2), oddPermittivity(u, g, er)),
  }
}

export const LIMITS: readonly Limit[] = [
  { quantity: 'width/height', min: 0.1, max: 10 },
  { quantity: 'gap/height', min: 0.1, max: 10 },
  { quantity: 'relative permittivity', min: 1, max: 18 },
  { quantity: 'thickness/gap', min: 0, max: 0 },
]

/** Even mode from u = w/h, g = s/h and εr. */
export function evenMode(u: number, g: number, er: number): LineConstants {
  return mode(airImpedance(u), evenCoupling(u, g, gapFactor(g)), evenPermittivity(u, g, er))
}

/** Odd mode from u = w/h, g = s/h and εr. */
export function oddMode(u: number, g: number, er: number): LineConstants {
  const Q2 = gapFactor(g)
  return mode(airImpedance(u), evenCoupling(u, g, Q2) - oddExcess(u, g, Q2), oddPermittivity(u, g, er))
}

function mode(air: Ohms, coupling: number, effectivePermittivity: Ratio): LineConstants {
  const impedance = air / (Math.sqrt(effectivePermittivity) * (1 - (air / FREE_SPACE_IMPEDANCE) * coupling))
  return { impedance, effectivePermittivity }
}

function evenPermittivity(u: number, g: number, er: number): Ratio {
  const v = (u * (20 + g * g)) / (10 + g * g) + g * Math.exp(-g)
  return zeroThicknessPermittivity(v, er)
}

function oddPermittivity(u: number, g: number, er: number): Ratio {
  const ee0 = zeroThicknessPermittivity(u, er)
  const mean = (er + 1) / 2
  const ao = 0.7287 * (ee0 - mean) * (1 - Math.exp(-0.179 * u))
  const bo = (0.747 * er) / (0.15 + er)
  const co = bo - (bo - 0.207) * Math.exp(-0.414 * u)
  const d = 0.593 + 0.694 * Math.exp(-0.562 * u)
  return (mean + ao - ee0) * Math.exp(-co * positivePower(g, d)) + ee0
}

/** Q4. Here and below, powers of one base share its logarithm: x^y = exp(y ln x). */
function evenCoupling(u: number, g: number, Q2: number): number {
  const logU = Math.log(u)
  const Q1 = 0.8695 * Math.exp(0.194 * logU)
  const Q3 = 0.1975 + positivePower(16.6 + sixthPower(8.4 / g), -0.387) + saturating(g, 3.4) / 241
  const decay = Math.exp(-g)
  const power = Math.exp(Q3 * logU)
  return (2 * Q1) / Q2 / (decay * power + (2 - decay) / power)
}

/** Q4 − Q10. */
function oddExcess(u: number, g: number, Q2: number): number {
  const logU = Math.log(u)
  const logG = Math.log(g)
  const Q5 = 1.794 + 1.14 * Math.log(1 + 0.638 / (g + 0.517 * Math.exp(2.43 * logG)))
  const Q6 = 0.2305 + saturating(g, 5.8) / 281.3 + Math.log(1 + 0.598 * Math.exp(1.154 * logG)) / 5.1
  const Q7 = (10 + 190 * g * g) / (1 + 82.3 * g * g * g)
  const Q8 = Math.exp(-6.5 - 0.95 * logG - fifthPower(g / 0.15))
  const Q9 = Math.log(Q7) * (Q8 + 1 / 16.5)
  return (Q5 * Math.exp(logU * Q6 * Math.exp(-Q9 * logU))) / Q2
}

/** Q2. */
function gapFactor(g: number): number {
  return 1 + 0.7519 * g + 0.189 * positivePower(g, 2.31)
}

/** ln{ g^10 / [1 + (g/knee)^10] }, which levels off at 10 ln(knee). */
function saturating(g: number, knee: number): number {
  return Math.log(fifthPower(g * g) / (1 + fifthPower((g / knee) * (g / knee))))
}

function fifthPower(x: number): number {
  return x * x * x * x * x
}

function sixthPower(x: number): number {
  return x * fifthPower(x)
}
