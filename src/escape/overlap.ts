import type { Metres, Point } from '../units/quantity.ts'
import { padDiameter } from './clearanceRules.ts'
import type { Field } from './field.ts'
import type { ViaChain } from './viaChain.ts'

/** Distance between the two nearest of neighbouring places that are taken; Infinity where none are neighbours. */
export interface NearestPlaces {
  readonly lands: Metres
  /** Among balls that may have a via: all but unused ones. */
  readonly vias: Metres
}

/** Row and column steps to the neighbours of a place that come after it. */
const STEPS = [
  [0, 1],
  [1, -1],
  [1, 0],
  [1, 1],
] as const

export function nearestPlaces(field: Field): NearestPlaces {
  const { pack, rows, columns, cells, lands, vias } = field
  const nearest = { lands: Infinity, vias: Infinity }
  for (const [index, ball] of pack.balls.entries()) {
    for (const [down, across] of STEPS) {
      const row = ball.row + down
      const column = ball.column + across
      if (row >= rows || column < 0 || column >= columns) continue
      const other = cells[row * columns + column] ?? -1
      const neighbour = pack.balls[other]
      if (neighbour === undefined) continue
      nearest.lands = Math.min(nearest.lands, apart(lands, index, other))
      if (ball.use === 'unused' || neighbour.use === 'unused') continue
      nearest.vias = Math.min(nearest.vias, apart(vias, index, other))
    }
  }
  return nearest
}

/** Largest pad of a chain that stands whether or not a trace joins it. */
export function standingPad(chain: ViaChain): Metres {
  return chain.pieces.reduce((most, { via }) => {
    const layers = via.padDiameters.map((_, index) => via.firstLayer + index)
    const standing = layers.filter(
      (layer) => via.unconnectedInnerPads === 'kept' || layer === via.firstLayer || layer === via.lastLayer,
    )
    return standing.reduce((pad, layer) => Math.max(pad, padDiameter(via, layer)), most)
  }, 0)
}

function apart(points: readonly Point[], one: number, other: number): Metres {
  const a = points[one]
  const b = points[other]
  return a === undefined || b === undefined ? Infinity : Math.hypot(a.x - b.x, a.y - b.y)
}
