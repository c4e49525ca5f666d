import type { Ratio } from '../../units/quantity.ts'
import { inPermittivity } from './inPermittivity.ts'
import type { LineConstants } from './lineConstants.ts'

/**
 * A bare microstrip's constants, of a line or of one mode of a pair, after part of the air above the substrate has
 * been replaced by a cover:
 *
 *     εeff′ = εeff + (ε∞ − εeff)(1 − e^(−x)),   ε∞ = q εr + (1 − q) εc,   q = (εeff − 1)/(εr − 1)
 *
 * q is the share of the field in the substrate, ε∞ belongs to a cover without end, and x says how far the cover
 * goes towards it: 0 for none. The air impedance Z √εeff stays.
 *
 * Throws RangeError unless εr > 1 (the share is 0/0 otherwise), εc >= 1 and x >= 0.
 * Source: own construction, this project.
 */
export function coverFill(
  bare: LineConstants,
  relativePermittivity: Ratio,
  coverPermittivity: Ratio,
  x: number,
): LineConstants {
  if (!(relativePermittivity > 1 && coverPermittivity >= 1 && x >= 0)) {
    throw new RangeError(
      'cover needs substrate permittivity > 1, cover permittivity >= 1 and reach >= 0, got ' +
        `${relativePermittivity}, ${coverPermittivity}, ${x}`,
    )
  }
  const ee = bare.effectivePermittivity
  const q = (ee - 1) / (relativePermittivity - 1)
  const unlimited = q * relativePermittivity + (1 - q) * coverPermittivity
  return inPermittivity(bare, ee - (unlimited - ee) * Math.expm1(-x))
}
