import type { Hertz, Ratio } from '../../units/quantity.ts'
import type { Limit } from './limits.ts'
import type { LineConstants } from './lineConstants.ts'
import {
  frequencyExponent,
  frequencyLoss,
  microstripDispersionJansenKirschning,
  NEARLY_AIR,
  outerExponent,
} from './microstripDispersionJansenKirschning.ts'
import { approach, dispersionTerms } from './microstripDispersionKirschningJansen.ts'
import { assertMicrostripPair, type MicrostripPair } from './microstripPair.ts'
import { normalisedFrequency } from './normalisedFrequency.ts'
import type { PairConstants } from './pairConstants.ts'

/** Static constants of the pair and of one of its strips alone. */
export interface StaticPair extends PairConstants {
  readonly single: LineConstants
}

/**
 * Edge-coupled microstrip at a frequency, from its static constants. With u = w/h, g = s/h, fn = f h in GHz·mm:
 *
 *     εeff,m(f) = εr − (εr − εeff,m)/(1 + Fm)
 *     Ze(f) = Ze { [0.9408 εf^Ce − 0.9603] / [(0.9408 − de) ε0^Ce − 0.9603] }^Q0,   εf, ε0 of the single strip
 *     Zo(f) = Z(f) + { Zo [εeff,o(f)/εeff,o]^Q22 − Z(f) Q23 } / [1 + Q24 + (0.46 g)^2.2 Q25]
 *
 * On printed boards (fn ≤ 3, w/h ≤ 5, εr 3–4.5) the impedances change by less than 1 %. Below εr = 1.1 they stay
 * static.
 *
 * Assumes: fundamental modes, thin strips. Stated by the authors: εeff 1.4 %, impedances 2.5 %.
 * Source: M. Kirschning, R. H. Jansen, IEEE Trans. MTT-32, 1984, pp. 83–90, P5–P15 and Q11–Q29; corrections
 * MTT-33, 1985, p. 288 (the denominator of Ze takes the static single-line value).
 */
export function microstripPairDispersion(
  pair: MicrostripPair,
  statics: StaticPair,
  frequency: Hertz,
): PairConstants {
  assertMicrostripPair(pair)
  const { width: w, gap: s, height: h, relativePermittivity: er } = pair
  const [u, g, fn] = [w / h, s / h, normalisedFrequency(frequency, h)]
  const { even, odd } = statics
  const evenPermittivity = approach(er, even.effectivePermittivity, evenRise(u, g, er, fn))
  const oddPermittivity = approach(er, odd.effectivePermittivity, oddRise(u, g, er, fn))
  const nearlyAir = er < NEARLY_AIR
  const single = microstripDispersionJansenKirschning(pair, statics.single, frequency)
  const oddRatio = oddPermittivity / odd.effectivePermittivity
  return {
    even: {
      impedance: nearlyAir
        ? even.impedance
        : even.impedance * evenFactor(u, g, er, fn, statics.single, single),
      effectivePermittivity: evenPermittivity,
    },
    odd: {
      impedance: nearlyAir
        ? odd.impedance
        : oddImpedance(u, g, er, fn, odd.impedance, single.impedance, oddRatio),
      effectivePermittivity: oddPermittivity,
    },
  }
}

/** h/λ0 ≤ 0.1, and the range of the static equations. */
export const LIMITS: readonly Limit[] = [
  { quantity: 'width/height', min: 0.1, max: 10 },
  { quantity: 'gap/height', min: 0.1, max: 10 },
  { quantity: 'relative permittivity', min: 1, max: 18 },
  { quantity: 'height/wavelength', min: 0, max: 0.1 },
]

/** Fe */
function evenRise(u: Ratio, g: Ratio, er: Ratio, fn: number): number {
  const { P1P2, P3P4 } = dispersionTerms(u, er, fn)
  const P5 = 0.334 * Math.exp(-3.3 * (er / 15) ** 3) + 0.746
  const P6 = P5 * Math.exp(-((fn / 18) ** 0.368))
  const P7 = 1 + 4.069 * P6 * g ** 0.479 * Math.exp(-1.347 * g ** 0.595 - 0.17 * g ** 2.5)
  return P1P2 * ((P3P4 + 0.1844 * P7) * fn) ** 1.5763
}

/** Fo */
function oddRise(u: Ratio, g: Ratio, er: Ratio, fn: number): number {
  const { P1P2, P3P4 } = dispersionTerms(u, er, fn)
  const P8 = 0.7168 * (1 + 1.076 / (1 + 0.0576 * (er - 1)))
  const P9 = P8 - 0.7913 * (1 - Math.exp(-((fn / 20) ** 1.424))) * Math.atan(2.481 * (er / 8) ** 0.946)
  const P10 = 0.242 * (er - 1) ** 0.55
  const P11 = 0.6366 * (Math.exp(-0.3401 * fn) - 1) * Math.atan(1.263 * (u / 3) ** 1.629)
  const P12 = P9 + (1 - P9) / (1 + 1.183 * u ** 1.376)
  const P13 = (1.695 * P10) / (0.414 + 1.605 * P10)
  const P14 = 0.8928 + 0.1072 * (1 - Math.exp(-0.42 * (fn / 20) ** 3.215))
  const P15 = Math.abs(1 - (0.8928 * (1 + P11) * P12 * Math.exp(-P13 * g ** 1.092)) / P14)
  return P1P2 * ((P3P4 + 0.1844) * fn * P15) ** 1.5763
}

/** Ze(f)/Ze(0) */
function evenFactor(
  u: Ratio,
  g: Ratio,
  er: Ratio,
  fn: number,
  still: LineConstants,
  single: LineConstants,
): number {
  const Q21 = Math.abs(1 - (42.54 * g ** 0.133 * Math.exp(-0.812 * g) * u ** 2.5) / (1 + 0.033 * u ** 2.5))
  const Ce = 1 + frequencyExponent(u, er, fn) + exponentOfGap(u, g, er, fn)
  const above = 0.9408 * single.effectivePermittivity ** Ce - 0.9603
  const below = (0.9408 - frequencyLoss(u, er, fn, Q21)) * still.effectivePermittivity ** Ce - 0.9603
  return (above / below) ** outerExponent(u, er, fn)
}

/** −Q12 + Q16 − Q17 + Q18 + Q20 */
function exponentOfGap(u: Ratio, g: Ratio, er: Ratio, fn: number): number {
  const Q11 = 0.893 * (1 - 0.3 / (1 + 0.7 * (er - 1)))
  const rise = (fn / 20) ** 4.91
  const Q12 = ((2.121 * rise) / (1 + Q11 * rise)) * Math.exp(-2.87 * g) * g ** 0.902
  const Q13 = 1 + 0.038 * (er / 8) ** 5.1
  const er4 = (er / 15) ** 4
  const Q14 = 1 + (1.203 * er4) / (1 + er4)
  const Q15 =
    (1.887 * Math.exp(-1.5 * g ** 0.84) * g ** Q14) /
    (1 + (0.41 * (fn / 15) ** 3 * u ** (2 / Q13)) / (0.125 + u ** (1.626 / Q13)))
  const Q16 = (1 + 9 / (1 + 0.403 * (er - 1) ** 2)) * Q15
  const Q17 = 0.394 * (1 - Math.exp(-1.47 * (u / 7) ** 0.672)) * (1 - Math.exp(-4.25 * (fn / 20) ** 1.87))
  const Q18 = (0.61 * (1 - Math.exp(-2.13 * (u / 8) ** 1.593))) / (1 + 6.544 * g ** 4.17)
  const Q19 = (0.21 * g ** 4) / ((1 + 0.18 * g ** 4.9) * (1 + 0.1 * u * u) * (1 + (fn / 24) ** 3))
  const Q20 = (0.09 + 1 / (1 + 0.1 * (er - 1) ** 2.7)) * Q19
  return -Q12 + Q16 - Q17 + Q18 + Q20
}

function oddImpedance(
  u: Ratio,
  g: Ratio,
  er: Ratio,
  fn: number,
  still: number,
  single: number,
  permittivityRatio: Ratio,
): number {
  const contrast = er - 1
  const Q29 = 15.16 / (1 + 0.196 * contrast ** 2)
  const Q28 = (0.149 * contrast ** 3) / (94.5 + 0.038 * contrast ** 3)
  const Q27 = 0.4 * g ** 0.84 * (1 + (2.5 * contrast ** 1.5) / (5 + contrast ** 1.5))
  const contrast12 = (contrast / 13) ** 12
  const Q26 = 30 - 22.2 * (contrast12 / (1 + 3 * contrast12)) - Q29
  const Q25 = ((0.3 * fn * fn) / (10 + fn * fn)) * (1 + (2.333 * contrast ** 2) / (5 + contrast ** 2))
  const u894 = u ** 0.894
  const Q24 = (2.506 * Q28 * u894 * (((1 + 1.3 * u) * fn) / 99.25) ** 4.29) / (3.575 + u894)
  const Q23 = 1 + (0.005 * fn * Q27) / ((1 + 0.812 * (fn / 15) ** 1.9) * (1 + 0.025 * u * u))
  const Q22 = (0.925 * (fn / Q26) ** 1.536) / (1 + 0.3 * (fn / 30) ** 1.536)
  return single + (still * permittivityRatio ** Q22 - single * Q23) / (1 + Q24 + (0.46 * g) ** 2.2 * Q25)
}
