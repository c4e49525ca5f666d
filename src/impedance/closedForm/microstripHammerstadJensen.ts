import { positivePower } from '../../numerics/positivePower.ts'
import { FREE_SPACE_IMPEDANCE } from '../../units/constants.ts'
import type { Ohms, Ratio } from '../../units/quantity.ts'
import type { Limit } from './limits.ts'
import type { LineConstants } from './lineConstants.ts'
import { assertMicrostripLine, type MicrostripLine } from './microstripLine.ts'

/**
 * Surface microstrip, quasi-static, with strip thickness. With u = w/h and T = t/h:
 *
 *     Z01(u)    = η0/2π · ln[ F(u)/u + √(1 + (2/u)²) ]                          (1)
 *     F(u)      = 6 + (2π − 6) exp[ −(30.666/u)^0.7528 ]                        (2)
 *     ee(u, εr) = (εr + 1)/2 + (εr − 1)/2 · (1 + 10/u)^(−a(u) b(εr))            (3)
 *     a(u)      = 1 + 1/49 ln[ (u⁴ + (u/52)²)/(u⁴ + 0.432) ] + 1/18.7 ln[ 1 + (u/18.1)³ ]   (4)
 *     b(εr)     = 0.564 [ (εr − 0.9)/(εr + 3) ]^0.053                           (5)
 *     Δu(1)     = T/π · ln{ 1 + 4e / [ T coth²√(6.517 u) ] }                    (6)
 *     Δu(εr)    = ½ [ 1 + 1/cosh√(εr − 1) ] Δu(1)                               (7)
 *     Z         = Z01(ur)/√ee(ur, εr)                                           (8)
 *     εeff      = ee(ur, εr) [ Z01(u1)/Z01(ur) ]²,   u1 = u + Δu(1),  ur = u + Δu(εr)       (9)
 *
 * Assumes: lossless, one infinite plane, homogeneous isotropic sheet, rectangular strip, no dispersion.
 * Stated by the authors: Z01 to 0.01 % for u <= 1 and 0.03 % for u <= 1000; ee to 0.2 %.
 *
 * Source: E. Hammerstad, O. Jensen, "Accurate models for microstrip computer-aided design", IEEE MTT-S Int.
 * Microwave Symposium Digest, 1980, pp. 407–409, eqs. (1)–(9).
 */
export function microstripHammerstadJensen(line: MicrostripLine): LineConstants {
  assertMicrostripLine(line)
  const { width: w, thickness: t, height: h, relativePermittivity: er } = line
  const u = w / h
  const inAir = airWidening(u, t / h)
  const ur = u + dielectricShare(er) * inAir
  const ee = zeroThicknessPermittivity(ur, er)
  const z = airImpedance(ur)
  const airRatio = airImpedance(u + inAir) / z
  return { impedance: z / Math.sqrt(ee), effectivePermittivity: ee * airRatio * airRatio }
}

/** Range of the paper: 0.01 <= w/h <= 100, εr <= 128. The thickness term is not bounded by the authors. */
export const LIMITS: readonly Limit[] = [
  { quantity: 'width/height', min: 0.01, max: 100 },
  { quantity: 'relative permittivity', min: 1, max: 128 },
]

/** Z01(u): impedance of the zero-thickness strip in air, eqs. (1) and (2). */
export function airImpedance(widthToHeight: Ratio): Ohms {
  const u = widthToHeight
  const F = 6 + (2 * Math.PI - 6) * Math.exp(-positivePower(30.666 / u, 0.7528))
  return (FREE_SPACE_IMPEDANCE / (2 * Math.PI)) * Math.log(F / u + Math.sqrt(1 + 4 / (u * u)))
}

/** ee(u, εr): effective permittivity of the zero-thickness strip, eqs. (3)–(5). */
export function zeroThicknessPermittivity(widthToHeight: Ratio, relativePermittivity: Ratio): Ratio {
  const u = widthToHeight
  const er = relativePermittivity
  const u4 = u * u * u * u
  const cube = (u / 18.1) * (u / 18.1) * (u / 18.1)
  const a = 1 + Math.log((u4 + (u / 52) ** 2) / (u4 + 0.432)) / 49 + Math.log1p(cube) / 18.7
  const b = 0.564 * positivePower((er - 0.9) / (er + 3), 0.053)
  return (er + 1) / 2 + ((er - 1) / 2) * positivePower(1 + 10 / u, -a * b)
}

/**
 * Δu: by how much the strip must be widened, relative to the height, for a zero-thickness strip to stand for
 * the thick one, eqs. (6) and (7). Permittivity 1 gives the widening of the air line.
 */
export function widening(widthToHeight: Ratio, thicknessToHeight: Ratio, relativePermittivity: Ratio): Ratio {
  return dielectricShare(relativePermittivity) * airWidening(widthToHeight, thicknessToHeight)
}

/** Δu(1), eq. (6). */
function airWidening(widthToHeight: Ratio, thicknessToHeight: Ratio): Ratio {
  const T = thicknessToHeight
  if (T === 0) return 0
  const tanh = Math.tanh(Math.sqrt(6.517 * widthToHeight))
  return (T / Math.PI) * Math.log1p((4 * Math.E * tanh * tanh) / T)
}

/** Δu(εr)/Δu(1), eq. (7). */
function dielectricShare(relativePermittivity: Ratio): Ratio {
  return 0.5 * (1 + 1 / Math.cosh(Math.sqrt(relativePermittivity - 1)))
}
