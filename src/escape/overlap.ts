import type { Ball } from '../board/packages.ts'
import { hypotenuse } from '../numerics/hypotenuse.ts'
import type { Metres, Point } from '../units/quantity.ts'
import { padDiameter } from './clearanceRules.ts'
import type { Field } from './field.ts'
import type { ViaChain } from './viaChain.ts'

/** Distance between the two nearest of neighbouring places that are taken; Infinity where none are neighbours. */
export interface NearestPlaces {
  readonly lands: Metres
  /** Among balls that may have a via: all but unused ones. */
  readonly vias: Metres
  /** From a via to the nearest land of another ball. */
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
  const hasVia = (ball: number): boolean => pack.balls[ball]?.use !== 'unused'
  const nearest = { lands: Infinity, vias: Infinity, viaToLand: Infinity }
  const neighbours = ({ row, column }: Ball): number[] =>
    STEPS.map(([down, across]) => ({ row: row + down, column: column + across }))
      .filter((place) => place.row < rows && place.column >= 0 && place.column < columns)
      .map((place) => cells[place.row * columns + place.column] ?? -1)
      .filter((other) => other !== -1)
  for (const [index, ball] of pack.balls.entries()) {
    for (const other of neighbours(ball)) {
      nearest.lands = Math.min(nearest.lands, distance(lands[index], lands[other]))
      if (hasVia(index) && hasVia(other))
        nearest.vias = Math.min(nearest.vias, distance(vias[index], vias[other]))
      for (const [one, next] of [[index, other] as const, [other, index] as const]) {
        if (hasVia(one)) nearest.viaToLand = Math.min(nearest.viaToLand, distance(vias[one], lands[next]))
      }
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

function distance(one: Point | undefined, other: Point | undefined): Metres {
  return one === undefined || other === undefined ? Infinity : hypotenuse(one.x - other.x, one.y - other.y)
}
