import type { Point } from '../../units/quantity.ts'
import type { Gate } from '../escape.ts'
import type { Site } from './layerMap.ts'
import type { LayerCapacity } from './layerCapacity.ts'

/** The ball whose obstacle stands at a site, and the place of its centre. */
export interface StandingBall {
  readonly ball: string
  readonly at: Point
}

/**
 * The gates of a cut with the names of the balls between which they lie, in the order of the cut.
 *
 * Throws RangeError where `ballAt` knows none at an end of a gate.
 */
export function gatesOf(capacity: LayerCapacity, ballAt: (site: Site) => StandingBall | null): Gate[] {
  const known = (site: Site): StandingBall => {
    const ball = ballAt(site)
    if (ball === null) throw new RangeError(`no ball stands at row ${site.row}, column ${site.column}`)
    return ball
  }
  return capacity.cut.map(({ from, to, clear, traces }) => {
    const [one, other] = [known(from), known(to)]
    return { from: one.at, to: other.at, balls: [one.ball, other.ball], clear, traces }
  })
}
