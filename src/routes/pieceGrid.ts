import type { Metres, Point } from '../units/quantity.ts'
import type { Route } from './route.ts'

/** A straight piece of a route's centre line. */
export interface Piece {
  readonly route: Route
  readonly from: Point
  readonly to: Point
  /** Unit vector from `from` to `to`. */
  readonly along: Point
  readonly length: Metres
  /** Length of the path before it. */
  readonly start: Metres
}

/** Squares along either axis of the grid: 2²⁵, so that their keys are whole numbers without rounding. */
const SQUARES = 2 ** 25

/**
 * Pieces by squares of the plane, to find those near another without looking at all.
 *
 * Points no more than a reach apart along each piece stand for it; each lies within half a reach of any place it
 * stands for, so two places within a reach have points within twice that: in squares that touch.
 */
export class PieceGrid {
  readonly #reach: Metres
  readonly #squares = new Map<number, Piece[]>()

  /** Throws RangeError unless the reach, centre line to centre line, is positive. */
  constructor(pieces: readonly Piece[], reach: Metres) {
    if (!(reach > 0)) throw new RangeError(`reach must be above 0, got ${reach} m`)
    this.#reach = reach
    for (const piece of pieces) {
      for (const point of this.#points(piece)) this.#add(piece, this.#key(point, 0, 0))
    }
  }

  /** Every piece with a place within the reach of a place of this one, itself included; some farther ones too. */
  near(piece: Piece): Piece[] {
    const found = new Set<Piece>()
    for (const point of this.#points(piece)) {
      for (let dx = -1; dx <= 1; dx += 1) {
        for (let dy = -1; dy <= 1; dy += 1) {
          for (const other of this.#squares.get(this.#key(point, dx, dy)) ?? []) found.add(other)
        }
      }
    }
    return [...found]
  }

  #add(piece: Piece, key: number): void {
    const known = this.#squares.get(key)
    if (known === undefined) this.#squares.set(key, [piece])
    else if (known.at(-1) !== piece) known.push(piece)
  }

  #points({ from, along, length }: Piece): Point[] {
    const steps = Math.ceil(length / this.#reach)
    return Array.from({ length: steps + 1 }, (_, step) => {
      const at = (length * step) / steps
      return { x: from.x + at * along.x, y: from.y + at * along.y }
    })
  }

  #key({ x, y }: Point, dx: number, dy: number): number {
    const side = 2 * this.#reach
    const column = Math.floor(x / side) + dx
    const row = Math.floor(y / side) + dy
    return (column + SQUARES / 2) * SQUARES + row + SQUARES / 2
  }
}
