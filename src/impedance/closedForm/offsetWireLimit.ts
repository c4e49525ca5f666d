import type { Metres, Ohms, Ratio } from '../../units/quantity.ts'
import { FREE_SPACE_IMPEDANCE } from '../../units/constants.ts'

/**
 * A thin round wire at height y between two planes b apart; exact in the limit of a vanishing diameter, and the
 * limit that every narrow strip between planes must tend to.
 *
 *     Z = η0/(2π √εr) · ln[ 4b/(πd) · sin(πy/b) ]
 *
 * Assumes: TEM, lossless, infinite planes, one dielectric, d much smaller than y and b − y.
 * Source: method of images; e.g. Reference Data for Radio Engineers, single wire between grounded parallel planes.
 *
 * Throws RangeError unless 0 < y < b and the wire is thin enough for the logarithm to be positive.
 */
export function offsetWireLimit(wire: {
  readonly diameter: Metres
  readonly height: Metres
  readonly spacing: Metres
  readonly relativePermittivity: Ratio
}): Ohms {
  const { diameter: d, height: y, spacing: b, relativePermittivity: er } = wire
  const argument = ((4 * b) / (Math.PI * d)) * Math.sin((Math.PI * y) / b)
  if (!(d > 0 && y > 0 && y < b && er >= 1 && argument > 1)) {
    throw new RangeError(`wire needs 0 < height < spacing and a small diameter, got ${y} m, ${b} m, ${d} m`)
  }
  return (FREE_SPACE_IMPEDANCE / (2 * Math.PI * Math.sqrt(er))) * Math.log(argument)
}
