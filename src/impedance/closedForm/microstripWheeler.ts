import { FREE_SPACE_IMPEDANCE } from '../../units/constants.ts'
import type { Metres, Ohms } from '../../units/quantity.ts'
import type { Limit } from './limits.ts'
import type { LineConstants } from './lineConstants.ts'
import { assertMicrostripLine, type MicrostripLine } from './microstripLine.ts'

/**
 * Surface microstrip by one explicit formula for every width, with strip thickness:
 *
 *     Z   = η0/(2√2 π √(εr + 1)) · ln{ 1 + p [ q p + √((q p)² + π²/2 · (1 + 1/εr)) ] }
 *     p   = 4h/weq,   q = (14 + 8/εr)/11
 *     weq = w + Δw (1 + 1/εr)/2
 *     Δw  = t/π · ln{ 4e / √[ (t/h)² + (1/(π (w/t + 1.10)))² ] }
 *
 * The print rounds η0/(2√2 π) to 42.4 ohm; the exact factor is used here. Effective permittivity is not part of
 * the paper: it follows as the square of Z at εr = 1 over Z, the definition of the quantity.
 *
 * Assumes: lossless, one infinite plane, homogeneous sheet, rectangular strip, no dispersion.
 * Stated by the author: 2 % for every width.
 *
 * Source: H. A. Wheeler, "Transmission-line properties of a strip on a dielectric sheet on a plane", IEEE Trans.
 * MTT-25, 631–647, Aug. 1977, coefficients from memory.
 */
export function microstripWheeler(line: MicrostripLine): LineConstants {
  assertMicrostripLine(line)
  const impedance = impedanceOf(line)
  const airRatio = impedanceOf({ ...line, relativePermittivity: 1 }) / impedance
  return { impedance, effectivePermittivity: airRatio * airRatio }
}

export const LIMITS: readonly Limit[] = [{ quantity: 'relative permittivity', min: 1, max: 128 }]

function impedanceOf(line: MicrostripLine): Ohms {
  const { height: h, relativePermittivity: er } = line
  const p = (4 * h) / (line.width + ((1 + 1 / er) / 2) * wideningInAir(line))
  const q = (14 + 8 / er) / 11
  const root = Math.sqrt((q * p) ** 2 + (Math.PI ** 2 / 2) * (1 + 1 / er))
  return (
    (FREE_SPACE_IMPEDANCE / (2 * Math.SQRT2 * Math.PI * Math.sqrt(er + 1))) * Math.log1p(p * (q * p + root))
  )
}

function wideningInAir(line: MicrostripLine): Metres {
  const { width: w, thickness: t, height: h } = line
  if (t === 0) return 0
  return (t / Math.PI) * Math.log((4 * Math.E) / Math.hypot(t / h, 1 / (Math.PI * (w / t + 1.1))))
}
