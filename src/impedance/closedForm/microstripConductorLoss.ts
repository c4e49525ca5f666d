import type { Metres, NepersPerMetre, Ohms, Ratio } from '../../units/quantity.ts'

export interface LossyMicrostrip {
  readonly width: Metres
  readonly thickness: Metres
  readonly height: Metres
  readonly impedance: Ohms
  readonly effectivePermittivity: Ratio
  readonly surfaceResistance: Ohms
}

/** Decibels per neper. */
const DECIBELS = 20 / Math.LN10

/**
 * Conductor loss of a microstrip in closed form (in dB/m in the original, Np/m here).
 *
 *     w/h ≤ 1:  α = 1.38 A Rs / (h Z) · (32 − W²)/(32 + W²)
 *     w/h ≥ 1:  α = 6.1e-5 A Rs Z εeff / h · [W + 0.667 W/(W + 1.444)]
 *     W = we/h,  we = w + (1.25 t/π)[1 + ln(2B/t)],  A = 1 + (1/W)[1 + (1.25/π) ln(2B/t)],
 *     B = h where w/h ≥ 1/2π, else 2πw
 *
 * Assumes: thickness > 3 skin depths; smooth copper. Against a boundary-element solution −1.4 to +3.4 %.
 * Source: R. A. Pucel, D. J. Massé, C. P. Hartwig, "Losses in microstrip", IEEE Trans. MTT-16, 1968, pp. 342–350,
 * in the simplified form of K. C. Gupta, R. Garg, I. Bahl, P. Bhartia, "Microstrip Lines and Slotlines", 2nd ed. 1996
 * (from memory).
 * Throws RangeError unless all values are positive.
 */
export function microstripConductorLoss(line: LossyMicrostrip): NepersPerMetre {
  const { width: w, thickness: t, height: h, impedance: z, effectivePermittivity: ee } = line
  const rs = line.surfaceResistance
  if (!(w > 0 && t > 0 && h > 0 && z > 0 && ee >= 1 && rs > 0)) {
    throw new RangeError(
      `microstrip loss needs width, thickness, height, impedance, surface resistance > 0 and permittivity >= 1; got ${w} m, ${t} m, ${h} m, ${z} ohm, ${rs} ohm, ${ee}`,
    )
  }
  const u = w / h
  const edge = Math.log((2 * (u >= 1 / (2 * Math.PI) ? h : 2 * Math.PI * w)) / t)
  const wide = u + ((1.25 * t) / (Math.PI * h)) * (1 + edge)
  const a = 1 + (1 + (1.25 / Math.PI) * edge) / wide
  const decibels =
    u <= 1
      ? ((1.38 * a * rs) / (h * z)) * ((32 - wide * wide) / (32 + wide * wide))
      : ((6.1e-5 * a * rs * z * ee) / h) * (wide + (0.667 * wide) / (wide + 1.444))
  return decibels / DECIBELS
}
