/** A box on the grid, edges included. */
export interface Box {
  readonly left: number
  readonly right: number
  readonly low: number
  readonly high: number
}

/** Hands out each pair of places in the list whose boxes meet, once. */
export type EachPair = (boxes: readonly Box[], visit: (one: number, other: number) => void) => void

/**
 * Every pair of boxes that meet, found by the cells of a grid with about as many cells as boxes. For boxes of the size of a
 * cell the time grows with their number, not with its square.
 */
export const eachNeighbour: EachPair = (boxes, visit) => {
  const grid = gridOver(boxes)
  const lists = new CellLists(boxes, grid)
  for (let index = 0; index < boxes.length; index += 1) {
    const left = grid.ranges[4 * index] ?? 0
    const right = grid.ranges[4 * index + 1] ?? -1
    const high = grid.ranges[4 * index + 3] ?? -1
    for (let row = grid.ranges[4 * index + 2] ?? 0; row <= high; row += 1) {
      const first = row * grid.columns
      for (let cell = first + left; cell <= first + right; cell += 1) lists.enter(cell, index, visit)
    }
  }
}

/** In each cell the boxes that touch it, linked from the newest to the oldest. */
class CellLists {
  readonly #boxes: readonly Box[]
  readonly #newest: Int32Array
  readonly #values: Int32Array
  readonly #older: Int32Array
  #entries = 0
  /** By box, the last one that it was compared with. */
  readonly #met: Int32Array

  constructor(boxes: readonly Box[], { columns, rows, entries }: Grid) {
    this.#boxes = boxes
    this.#newest = new Int32Array(columns * rows).fill(-1)
    this.#values = new Int32Array(entries)
    this.#older = new Int32Array(entries)
    this.#met = new Int32Array(boxes.length).fill(-1)
  }

  /** Puts a box into a cell, and hands out those in it that the box meets and has not met yet. */
  enter(cell: number, index: number, visit: (one: number, other: number) => void): void {
    const box = this.#boxes[index]
    const newest = this.#newest[cell] ?? -1
    for (let entry = newest; entry >= 0; entry = this.#older[entry] ?? -1) {
      const other = this.#values[entry] ?? -1
      if (this.#met[other] === index) continue
      this.#met[other] = index
      if (doMeet(box, this.#boxes[other])) visit(other, index)
    }
    this.#values[this.#entries] = index
    this.#older[this.#entries] = newest
    this.#newest[cell] = this.#entries
    this.#entries += 1
  }
}

function doMeet(one: Box | undefined, other: Box | undefined): boolean {
  return (
    one !== undefined &&
    other !== undefined &&
    one.left <= other.right &&
    other.left <= one.right &&
    one.low <= other.high &&
    other.low <= one.high
  )
}

interface Grid {
  readonly columns: number
  readonly rows: number
  /** First and last column, first and last row of the cells that each box touches, one box after the other. */
  readonly ranges: Int32Array
  /** Cells that boxes touch, each counted as often as one does. */
  readonly entries: number
}

function gridOver(boxes: readonly Box[]): Grid {
  let [left, right, low, high] = [Infinity, -Infinity, Infinity, -Infinity]
  for (const box of boxes) {
    left = Math.min(left, box.left)
    right = Math.max(right, box.right)
    low = Math.min(low, box.low)
    high = Math.max(high, box.high)
  }
  const ranges = new Int32Array(4 * boxes.length)
  if (boxes.length === 0) return { columns: 0, rows: 0, ranges, entries: 0 }
  const [width, height] = [right - left + 1, high - low + 1]
  const size = Math.max(
    Math.sqrt((width * height) / boxes.length),
    width / boxes.length,
    height / boxes.length,
  )
  let entries = 0
  for (let index = 0; index < boxes.length; index += 1) {
    const box = boxes[index]
    if (box === undefined) continue
    const [first, last] = [Math.floor((box.left - left) / size), Math.floor((box.right - left) / size)]
    const [bottom, top] = [Math.floor((box.low - low) / size), Math.floor((box.high - low) / size)]
    ranges.set([first, last, bottom, top], 4 * index)
    entries += (last - first + 1) * (top - bottom + 1)
  }
  return {
    columns: Math.floor((right - left) / size) + 1,
    rows: Math.floor((high - low) / size) + 1,
    ranges,
    entries,
  }
}
