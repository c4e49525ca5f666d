import { FREE_SPACE_IMPEDANCE } from '../../units/constants.ts'
import type { Ratio } from '../../units/quantity.ts'
import type { Limit } from './limits.ts'
import type { LineConstants } from './lineConstants.ts'
import { airImpedance, zeroThicknessPermittivity } from './microstripHammerstadJensen.ts'
import { assertMicrostripPair, type MicrostripPair } from './microstripPair.ts'
import type { PairConstants } from './pairConstants.ts'

/**
 * Edge-coupled microstrip of zero thickness, quasi-static: the forerunner of Kirschning and Jansen's equations, kept as
 * a second opinion. With u = w/h, g = s/h and the air line Z01 of the same paper:
 *
 *     Z = Z01 / { √εeff [1 − Z01 φ/η0] },   φ even or odd
 *
 * Assumes: lossless, one infinite plane, one homogeneous sheet, equal strips, zero thickness. A boundary-element
 * solution agrees within 0.75 % (even) and 1.5 % (odd); the odd εeff is up to 3.8 % low for εr < 4 and s/h ≥ 3.
 * Source: E. Hammerstad, O. Jensen, "Accurate models for microstrip computer-aided design", IEEE MTT-S Int.
 * Microwave Symposium Digest, 1980, pp. 407–409, coupled-line equations.
 */
export function microstripPairHammerstadJensen(pair: MicrostripPair): PairConstants {
  assertMicrostripPair(pair)
  const { width: w, gap: s, height: h, relativePermittivity: er } = pair
  const u = w / h
  const g = s / h
  const v = (u * (20 + g * g)) / (10 + g * g) + g * Math.exp(-g)
  const psi = 1 + g / 1.45 + g ** 2.09 / 3.95
  const evenPhi = evenCoupling(u, g, psi)
  return {
    even: mode(u, evenPhi, zeroThicknessPermittivity(v, er)),
    odd: mode(u, evenPhi - oddExcess(u, g, psi), oddPermittivity(u, g, er)),
  }
}

export const LIMITS: readonly Limit[] = [
  { quantity: 'width/height', min: 0.1, max: 10 },
  { quantity: 'gap/height', min: 0.1, max: 10 },
  { quantity: 'relative permittivity', min: 1, max: 18 },
  { quantity: 'thickness/gap', min: 0, max: 0 },
]

function mode(u: Ratio, phi: number, effectivePermittivity: Ratio): LineConstants {
  const air = airImpedance(u)
  const impedance = air / (Math.sqrt(effectivePermittivity) * (1 - (air * phi) / FREE_SPACE_IMPEDANCE))
  return { impedance, effectivePermittivity }
}

function evenCoupling(u: number, g: number, psi: number): number {
  const phi = 0.8645 * u ** 0.172
  const alpha = 0.5 * Math.exp(-g)
  const m = 0.2175 + (4.113 + (20.36 / g) ** 6) ** -0.251 + saturating(g, 13.8) / 323
  const power = u ** m
  return phi / (psi * (alpha * power + (1 - alpha) / power))
}

/** (θ/ψ) exp(β u^(−n) ln u) */
function oddExcess(u: number, g: number, psi: number): number {
  const theta = 1.729 + 1.175 * Math.log(1 + 0.627 / (g + 0.327 * g ** 2.17))
  const beta = 0.2306 + saturating(g, 3.73) / 301.8 + Math.log(1 + 0.646 * g ** 1.175) / 5.3
  const steepness = 1 / 17.7 + Math.exp(-6.424 - 0.76 * Math.log(g) - (g / 0.23) ** 5)
  const n = steepness * Math.log((10 + 68.3 * g * g) / (1 + 32.5 * g ** 3.093))
  return (theta / psi) * Math.exp(beta * u ** -n * Math.log(u))
}

/** ln{ g^10 / [1 + (g/knee)^10] }, which levels off at 10 ln(knee). */
function saturating(g: number, knee: number): number {
  return Math.log(g ** 10 / (1 + (g / knee) ** 10))
}

/** (εr + 1)/2 + (εr − 1)/2 · fo · (1 + 10/u)^(−a b) */
function oddPermittivity(u: number, g: number, er: number): Ratio {
  const r = 1 + 0.15 * (1 - Math.exp(1 - (er - 1) ** 2 / 8.2) / (1 + g ** -6))
  const fo1 = 1 - Math.exp(-0.179 * g ** 0.15 - (0.328 * g ** r) / Math.log(Math.E + (g / 7) ** 2.8))
  const p = Math.exp(-0.745 * g ** 0.295) / Math.cosh(g ** 0.68)
  const q = Math.exp(-1.366 - g)
  const fo = fo1 * Math.exp(p * Math.log(u) + q * Math.sin(Math.PI * Math.log10(u)))
  const mean = (er + 1) / 2
  return mean + fo * (zeroThicknessPermittivity(u, er) - mean)
}
