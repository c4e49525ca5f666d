import type { Metres, Point } from '../../units/quantity.ts'
import type { Ends } from './lattice.ts'

/**
 * Things by the squares that they lie in, so that what is near a place is found at once. What lies beyond the ends of the
 * layer counts to the outermost squares.
 */
export class CellGrid<Item> {
  readonly #cell: Metres
  readonly #left: Metres
  readonly #bottom: Metres
  readonly #columns: number
  readonly #rows: number
  readonly #items: (Item[] | undefined)[]

  /** @param cell Side of the squares. */
  constructor(cell: Metres, { left, right, bottom, top }: Ends) {
    this.#cell = cell
    this.#left = left
    this.#bottom = bottom
    this.#columns = Math.max(1, Math.ceil((right - left) / cell))
    this.#rows = Math.max(1, Math.ceil((top - bottom) / cell))
    this.#items = Array.from({ length: this.#columns * this.#rows }, () => undefined)
  }

  /** Squares that the box about two points touches, grown by a margin. */
  squares(from: Point, to: Point, margin: Metres): Squares {
    const left = this.#column(Math.min(from.x, to.x) - margin)
    const right = this.#column(Math.max(from.x, to.x) + margin)
    const low = this.#row(Math.min(from.y, to.y) - margin)
    const high = this.#row(Math.max(from.y, to.y) + margin)
    return { first: low * this.#columns + left, across: right - left, up: high - low, stride: this.#columns }
  }

  add(item: Item, { first, across, up, stride }: Squares): void {
    for (let row = first; row <= first + up * stride; row += stride) {
      for (let square = row; square <= row + across; square += 1) {
        const items = this.#items[square]
        if (items === undefined) this.#items[square] = [item]
        else items.push(item)
      }
    }
  }

  /** Takes out of the squares what answers to the test. */
  remove(isMeant: (item: Item) => boolean, { first, across, up, stride }: Squares): void {
    for (let row = first; row <= first + up * stride; row += stride) {
      for (let square = row; square <= row + across; square += 1) {
        const items = this.#items[square]
        if (items?.some(isMeant) === true) this.#items[square] = items.filter((item) => !isMeant(item))
      }
    }
  }

  at(square: number): readonly Item[] {
    return this.#items[square] ?? NOTHING
  }

  #column(x: Metres): number {
    return Math.max(0, Math.min(this.#columns - 1, Math.floor((x - this.#left) / this.#cell)))
  }

  #row(y: Metres): number {
    return Math.max(0, Math.min(this.#rows - 1, Math.floor((y - this.#bottom) / this.#cell)))
  }
}

/** A block of squares: the first of its lowest row, how many more there are across and upwards, and from row to row. */
export interface Squares {
  readonly first: number
  readonly across: number
  readonly up: number
  readonly stride: number
}

const NOTHING: readonly never[] = []
