import type { Metres, Ratio } from '../units/quantity.ts'

/** What a better method says over a closed form at one thickness. */
export interface ScaleKnot {
  readonly thickness: Metres
  readonly scale: Ratio
  /** Half-width of the better method's band there. */
  readonly band: Ratio
}

/** Scale of a closed form at a thickness, and half-width of the band of what it then says. */
export interface Scale {
  readonly scale: Ratio
  readonly band: Ratio
}

/** How far apart knots are at least: nearer, the first one stands. */
const APART: Ratio = 1.02

/**
 * The scale at any thickness: straight over its logarithm between knots, level outside. The band goes from that of one
 * knot to that of the next, and what the scale changes from the nearer of them on: nothing at a knot, half of the change midway.
 *
 * Throws RangeError without knots.
 */
export function scaleBetween(known: readonly ScaleKnot[]): (thickness: Metres) => Scale {
  const knots = known
    .filter(
      ({ thickness }, index) => !known.slice(0, index).some((each) => isNear(each.thickness, thickness)),
    )
    .toSorted((a, b) => a.thickness - b.thickness)
  const [first] = knots
  if (first === undefined) throw new RangeError('a scale needs at least one knot')
  return (thickness) => {
    const after = knots.findIndex((knot) => knot.thickness > thickness)
    const below = after < 0 ? (knots.at(-1) ?? first) : (knots[after - 1] ?? first)
    const above = after < 0 ? below : (knots[after] ?? first)
    if (below === above) return below
    const share = Math.log(thickness / below.thickness) / Math.log(above.thickness / below.thickness)
    const change = above.scale - below.scale
    return {
      scale: below.scale + share * change,
      band: below.band + share * (above.band - below.band) + Math.min(share, 1 - share) * Math.abs(change),
    }
  }
}

function isNear(one: Metres, other: Metres): boolean {
  return Math.max(one, other) < APART * Math.min(one, other)
}
