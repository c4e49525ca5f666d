import { MAGNETIC_CONSTANT } from '../../units/constants.ts'
import type { Hertz, Metres, Ohms, OhmMetres } from '../../units/quantity.ts'

/**
 * Depth at which the current density in a flat conductor has fallen to 1/e.
 *
 *     δ = √( ρ / (π f µ0) )
 *
 * Assumes: non-magnetic conductor, many skin depths thick. Standard result, e.g. D. M. Pozar, "Microwave
 * Engineering", 4th ed. 2012, eq. 1.60.
 * Throws RangeError unless resistivity and frequency are positive.
 */
export function skinDepth(resistivity: OhmMetres, frequency: Hertz): Metres {
  requirePositive(resistivity, frequency)
  return Math.sqrt(resistivity / (Math.PI * frequency * MAGNETIC_CONSTANT))
}

/**
 * Resistance of a square of conductor surface, ρ/δ = √(π f µ0 ρ). Assumptions as for the skin depth.
 */
export function surfaceResistance(resistivity: OhmMetres, frequency: Hertz): Ohms {
  requirePositive(resistivity, frequency)
  return Math.sqrt(Math.PI * frequency * MAGNETIC_CONSTANT * resistivity)
}

function requirePositive(resistivity: OhmMetres, frequency: Hertz): void {
  if (!(resistivity > 0 && frequency > 0)) {
    throw new RangeError(
      `skin effect needs resistivity > 0 and frequency > 0, got ${resistivity} ohm m, ${frequency} Hz`,
    )
  }
}
