import type { Metres, NepersPerMetre, Ohms, Ratio } from '../../units/quantity.ts'

export interface LossyStripline {
  readonly width: Metres
  readonly thickness: Metres
  /** Between the planes. */
  readonly spacing: Metres
  readonly relativePermittivity: Ratio
  readonly impedance: Ohms
  readonly surfaceResistance: Ohms
}

/** Below this √εr · Z the strip is wide enough for the parallel-plate branch. */
const NARROW_FROM: Ohms = 120

/**
 * Conductor loss of a centred stripline in closed form.
 *
 *     √εr Z < 120 ohm:  α = 2.7e-3 Rs εr Z A / [30π (b − t)],   A = 1 + 2w/(b − t) + (1/π) (b + t)/(b − t) ln[(2b − t)/t]
 *     otherwise:        α = 0.16 Rs B / (Z b),   B = 1 + b/(w/2 + 0.7t) [1/2 + 0.414 t/w + ln(4πw/t)/2π]
 *
 * The branches do not meet: at √εr Z = 120 ohm the narrow one gives up to 10 % more.
 * Assumes: thickness > 3 skin depths; smooth copper. Against a boundary-element solution 0 to +1.1 %, in the
 * narrow branch +5.2 %.
 * Source: the incremental-inductance rule on S. B. Cohn's stripline formulas, as given by D. M. Pozar, "Microwave
 * Engineering", 4th ed. 2012, eq. 3.181. (One circulated copy drops the 1/π in A.)
 * Throws RangeError unless 0 < thickness < spacing and all else is positive.
 */
export function striplineConductorLoss(line: LossyStripline): NepersPerMetre {
  const { width: w, thickness: t, spacing: b, relativePermittivity: er, impedance: z } = line
  const rs = line.surfaceResistance
  if (!(w > 0 && t > 0 && b > t && er >= 1 && z > 0 && rs > 0)) {
    throw new RangeError(
      `stripline loss needs width > 0, 0 < thickness < spacing, permittivity >= 1, impedance > 0, surface resistance > 0; got ${w} m, ${t} m, ${b} m, ${er}, ${z} ohm, ${rs} ohm`,
    )
  }
  if (Math.sqrt(er) * z < NARROW_FROM) {
    const a = 1 + (2 * w) / (b - t) + ((b + t) / (b - t) / Math.PI) * Math.log((2 * b - t) / t)
    return (2.7e-3 * rs * er * z * a) / (30 * Math.PI * (b - t))
  }
  const edge = 0.5 + (0.414 * t) / w + Math.log((4 * Math.PI * w) / t) / (2 * Math.PI)
  return (0.16 * rs * (1 + (b / (0.5 * w + 0.7 * t)) * edge)) / (z * b)
}
