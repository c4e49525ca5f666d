import { FREE_SPACE_IMPEDANCE } from '../../units/constants.ts'
import type { Metres } from '../../units/quantity.ts'
import type { Limit } from './limits.ts'
import type { LineConstants } from './lineConstants.ts'
import { assertMicrostripLine, type MicrostripLine } from './microstripLine.ts'

/**
 * Surface microstrip, the pair of equations found in most textbooks, with a width that stands for the thickness:
 *
 *     εeff = (εr + 1)/2 + (εr − 1)/2 · (1 + 12h/w)^(−1/2) − (εr − 1)/4.6 · (t/h)/√(w/h)
 *     Z    = η0/(2π √εeff) · ln(8/u + u/4)                             w <= h
 *     Z    = η0 / { √εeff [ u + 1.393 + 0.667 ln(u + 1.444) ] }        w >= h
 *     u    = weff/h
 *     weff = w + 1.25 t/π · [ 1 + ln(4πw/t) ]    w/h <= 1/2π
 *     weff = w + 1.25 t/π · [ 1 + ln(2h/t) ]     w/h >= 1/2π
 *
 * In the form that the textbook gives: the 0.04 (1 − u)² term of the 1975 paper for u <= 1 is left out. The textbook
 * rounds η0 to 120π; Bahl and Garg write η0.
 *
 * Assumes: lossless, one infinite plane, homogeneous sheet, thin strip, no dispersion.
 * Stated accuracy: 1 % for t/h <= 0.2.
 *
 * Source: E. O. Hammerstad, "Equations for microstrip circuit design", Proc. 5th European Microwave Conf., 1975,
 * 268–272, as in D. M. Pozar, Microwave Engineering, section 3.8; thickness from I. J. Bahl, R. Garg, "Simple and
 * accurate formulas for a microstrip with finite strip thickness", Proc. IEEE 65, 1611–1612, 1977, from memory.
 *
 * Throws RangeError where the thickness correction takes εeff below 1, from (t/h)/√(w/h) = 2.3 on.
 */
export function microstripHammerstad(line: MicrostripLine): LineConstants {
  assertMicrostripLine(line)
  const { width: w, thickness: t, height: h, relativePermittivity: er } = line
  const u = effectiveWidth(line) / h
  const thin = (er + 1) / 2 + (er - 1) / (2 * Math.sqrt(1 + (12 * h) / w))
  const ee = thin - (((er - 1) / 4.6) * (t / h)) / Math.sqrt(w / h)
  if (!(ee >= 1))
    throw new RangeError(
      `Hammerstad 1975 with Bahl and Garg has no answer for a strip ${t} m thick on ${h} m`,
    )
  const admittance =
    w <= h ? (2 * Math.PI) / Math.log(8 / u + u / 4) : u + 1.393 + 0.667 * Math.log(u + 1.444)
  return { impedance: FREE_SPACE_IMPEDANCE / (admittance * Math.sqrt(ee)), effectivePermittivity: ee }
}

/** Range from memory; the thickness is that of Bahl and Garg. */
export const LIMITS: readonly Limit[] = [
  { quantity: 'width/height', min: 0.05, max: 20 },
  { quantity: 'thickness/height', min: 0, max: 0.2 },
  { quantity: 'relative permittivity', min: 1, max: 16 },
]

function effectiveWidth(line: MicrostripLine): Metres {
  const { width: w, thickness: t, height: h } = line
  if (t === 0) return w
  const reach = w / h <= 1 / (2 * Math.PI) ? 4 * Math.PI * w : 2 * h
  return w + ((1.25 * t) / Math.PI) * (1 + Math.log(reach / t))
}
