import type { Hertz, Ratio } from '../../units/quantity.ts'
import type { Limit } from './limits.ts'
import type { LineConstants } from './lineConstants.ts'
import {
  microstripDispersionKirschningJansen,
  type DispersiveMicrostrip,
} from './microstripDispersionKirschningJansen.ts'
import { normalisedFrequency } from './normalisedFrequency.ts'

/**
 * Impedance and effective permittivity of a microstrip at a frequency, from the static ones: power–current
 * definition. With u = w/h, fn = f h in GHz·mm:
 *
 *     Z(f) = Z(0) (R13/R14)^R17
 *
 * Two slips are about in copies: the frequency power of R8 outside its exponential, and the exponential of R17
 * copied into R16.
 * Below εr = 1.1, where R14 passes through zero and true dispersion is negligible, the static impedance is returned.
 *
 * Assumes: fundamental mode, thin strip. Stated by the authors: about 1 %.
 * Source: R. H. Jansen, M. Kirschning, "Arguments and an accurate model for the power-current formulation of
 * microstrip characteristic impedance", Archiv für Elektronik und Übertragungstechnik 37, 1983, pp. 108–112, R1–R17.
 */
export function microstripDispersionJansenKirschning(
  line: DispersiveMicrostrip,
  statics: LineConstants,
  frequency: Hertz,
): LineConstants {
  const { width: w, height: h, relativePermittivity: er } = line
  const effectivePermittivity = microstripDispersionKirschningJansen(
    line,
    statics.effectivePermittivity,
    frequency,
  )
  if (er < NEARLY_AIR) return { impedance: statics.impedance, effectivePermittivity }
  const fn = normalisedFrequency(frequency, h)
  const u = w / h
  const R8 = 1 + frequencyExponent(u, er, fn)
  const R13 = 0.9408 * effectivePermittivity ** R8 - 0.9603
  const R14 = (0.9408 - frequencyLoss(u, er, fn)) * statics.effectivePermittivity ** R8 - 0.9603
  return {
    impedance: statics.impedance * (R13 / R14) ** outerExponent(u, er, fn),
    effectivePermittivity,
  }
}

/** h/λ0 ≤ 0.1. */
export const LIMITS: readonly Limit[] = [
  { quantity: 'width/height', min: 0.1, max: 10 },
  { quantity: 'relative permittivity', min: 1, max: 18 },
  { quantity: 'height/wavelength', min: 0, max: 0.1 },
]

export const NEARLY_AIR: Ratio = 1.1

/** R8 − 1, which the coupled-line equations extend. */
export function frequencyExponent(u: Ratio, er: Ratio, fn: number): number {
  const R3 = 4.766 * Math.exp(-3.228 * u ** 0.641)
  return 1.275 * (1 - Math.exp(-0.004625 * R3 * er ** 1.674 * (fn / 18.365) ** 2.745))
}

/** R9, with the factor on εr that the coupled-line equations call Q21. */
export function frequencyLoss(u: Ratio, er: Ratio, fn: number, Q21 = 1): number {
  const R4 = 0.016 + (0.0514 * er * Q21) ** 4.524
  const R5 = (fn / 28.843) ** 12
  const R6 = 22.2 * u ** 1.92
  const contrast = (er - 1) ** 6
  return (
    ((5.086 * R4 * R5) / (0.3838 + 0.386 * R4)) *
    (Math.exp(-R6) / (1 + 1.2992 * R5)) *
    (contrast / (1 + 10 * contrast))
  )
}

/** R17, which the coupled-line equations call Q0. */
export function outerExponent(u: Ratio, er: Ratio, fn: number): number {
  const R1 = 0.03891 * er ** 1.4
  const R2 = 0.267 * u ** 7
  const R7 = 1.206 - 0.3144 * Math.exp(-R1) * (1 - Math.exp(-R2))
  const R10 = 0.00044 * er ** 2.136 + 0.0184
  const rise = (fn / 19.47) ** 6
  const R11 = rise / (1 + 0.0962 * rise)
  const R12 = 1 / (1 + 0.00245 * u * u)
  const R15 = 0.707 * R10 * (fn / 12.3) ** 1.097
  const R16 = 1 + 0.0503 * er * er * R11 * (1 - Math.exp(-((u / 15) ** 6)))
  return R7 * (1 - 1.1241 * (R12 / R16) * Math.exp(-0.026 * fn ** 1.15656 - R15))
}
