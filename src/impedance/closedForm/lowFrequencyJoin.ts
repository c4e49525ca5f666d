import type { Metres, OhmMetres, Quantity } from '../../units/quantity.ts'

type OhmsPerMetre = Quantity<'ohm/m'>

/**
 * Resistance of a trace per metre at direct current, ρ/(w t) with the mean width of a trapezoid.
 *
 * Throws RangeError unless all values are positive.
 */
export function directCurrentResistance(
  resistivity: OhmMetres,
  meanWidth: Metres,
  thickness: Metres,
): OhmsPerMetre {
  if (!(resistivity > 0 && meanWidth > 0 && thickness > 0)) {
    throw new RangeError(
      `resistance needs resistivity, width, thickness > 0, got ${resistivity} ohm m, ${meanWidth} m, ${thickness} m`,
    )
  }
  return resistivity / (meanWidth * thickness)
}

/**
 * Resistance between the direct-current value and the skin-effect value, R = √(R_dc² + R_skin²).
 *
 * An engineering interpolation without theory behind it, a few per cent off where both are alike; common practice,
 * no source. The return current counts in `skin` only.
 */
export function lowFrequencyJoin(directCurrent: OhmsPerMetre, skin: OhmsPerMetre): OhmsPerMetre {
  return Math.hypot(directCurrent, skin)
}
