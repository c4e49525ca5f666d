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
  const { pack, lands, vias } = field
  const nearest = { lands: Infinity, vias: Infinity, viaToLand: Infinity }
  const compare = (one: number, other: number): void => {
    const hasVia = pack.balls[one]?.use !== 'unused'
    const hasOtherVia = pack.balls[other]?.use !== 'unused'
    nearest.lands = Math.min(nearest.lands, distance(lands[one], lands[other]))
    if (hasVia) nearest.viaToLand = Math.min(nearest.viaToLand, distance(vias[one], lands[other]))
    if (hasOtherVia) nearest.viaToLand = Math.min(nearest.viaToLand, distance(vias[other], lands[one]))
    if (hasVia && hasOtherVia) nearest.vias = Math.min(nearest.vias, distance(vias[one], vias[other]))
  }
  for (const [index, ball] of pack.balls.entries()) {
    for (const [down, across] of STEPS) {
      const other = ballAt(field, ball.row + down, ball.column + across)
      if (other !== -1) compare(index, other)
    }
  }
  return nearest
}

/** Index of the ball at a place of the grid; −1 where there is none. */
function ballAt({ rows, columns, cells }: Field, row: number, column: number): number {
  const inside = row < rows && column >= 0 && column < columns
  return inside ? (cells[row * columns + column] ?? -1) : -1
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
