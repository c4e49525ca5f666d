import { FREE_SPACE_IMPEDANCE } from '../../units/constants.ts'
import type { Metres, NepersPerMetre, Ohms } from '../../units/quantity.ts'

export interface LossyLine {
  /** Of the mode, with its dielectrics. */
  readonly impedance: Ohms
  readonly surfaceResistance: Ohms
  /** Impedance in air of the same line after every metal face has receded by this depth (negative: advanced). */
  readonly airImpedance: (depth: Metres) => Ohms
  /** Smallest thickness, width or distance of the line. */
  readonly smallestLength: Metres
}

/** Central difference: its error falls with the square of this, its rounding noise with the inverse. */
const STEP_PER_SMALLEST_LENGTH = 1e-3

/**
 * Conductor loss by the incremental-inductance rule.
 *
 *     α = Rs / (2 Z η0) · dZ_air/dn
 *
 * n is the depth by which every metal face recedes: the field that enters the metal stores as much inductance as
 * a recession by half a skin depth would add, and loses as much as it stores. Widths and thicknesses shrink by 2n,
 * distances between metals grow by 2n.
 *
 * Assumes: all metal more than three skin depths thick, radii of curvature larger than a skin depth (corners are
 * therefore idealised), smooth faces.
 * Source: H. A. Wheeler, "Formulas for the skin effect", Proc. IRE 30, 1942, pp. 412–424.
 * Throws RangeError unless all lengths and impedances are positive.
 */
export function incrementalInductanceLoss(line: LossyLine): NepersPerMetre {
  const { impedance, surfaceResistance, airImpedance, smallestLength } = line
  if (!(impedance > 0 && surfaceResistance > 0 && smallestLength > 0)) {
    throw new RangeError(
      `conductor loss needs impedance, surface resistance and lengths > 0, got ${impedance} ohm, ${surfaceResistance} ohm, ${smallestLength} m`,
    )
  }
  const step = smallestLength * STEP_PER_SMALLEST_LENGTH
  const slope = (airImpedance(step) - airImpedance(-step)) / (2 * step)
  return (surfaceResistance * slope) / (2 * impedance * FREE_SPACE_IMPEDANCE)
}
