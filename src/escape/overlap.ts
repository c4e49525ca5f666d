import type { Metres, Point } from '../units/quantity.ts'
import { padDiameter } from './clearanceRules.ts'
import type { Field } from './field.ts'
import type { ViaChain } from './viaChain.ts'

/** Distance between the two nearest of neighbouring places that are taken; Infinity where none are neighbours. */
export interface NearestPlaces {
  readonly lands: Metres
  /** Among balls that may have a via: all but unused ones. */
  readonly vias: Metres
  /** From a dog-bone via to the nearest land of another ball; Infinity with vias in the lands. */
  readonly viaToLand: Metres
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
  const nearest = { lands: Infinity, vias: Infinity, viaToLand: Infinity }
  for (const [index, ball] of pack.balls.entries()) {
    for (const [down, across] of STEPS) {
      const row = ball.row + down
      const column = ball.column + across
      if (row >= rows || column < 0 || column >= columns) continue
      const other = cells[row * columns + column] ?? -1
      const neighbour = pack.balls[other]
      if (neighbour === undefined) continue
      nearest.lands = Math.min(nearest.lands, apart(lands, index, other))
      if (field.dogBone && ball.use !== 'unused') {
        nearest.viaToLand = Math.min(nearest.viaToLand, distance(vias[index], lands[other]))
      }
      if (field.dogBone && neighbour.use !== 'unused') {
        nearest.viaToLand = Math.min(nearest.viaToLand, distance(vias[other], lands[index]))
      }
      if (ball.use === 'unused' || neighbour.use === 'unused') continue
      nearest.vias = Math.min(nearest.vias, apart(vias, index, other))
    }
  }
  return nearest
}

/** Pad of a chain on the layer of the lands. */
export function landPad({ pieces: [first] }: ViaChain): Metres {
  return first === undefined ? 0 : padDiameter(first.via, first.from)
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
  return distance(points[one], points[other])
}

function distance(one: Point | undefined, other: Point | undefined): Metres {
  return one === undefined || other === undefined ? Infinity : Math.hypot(one.x - other.x, one.y - other.y)
}
