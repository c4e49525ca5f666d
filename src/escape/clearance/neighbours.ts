/** A box on the grid, edges included. */
export interface Box {
  readonly left: number
  readonly right: number
  readonly low: number
  readonly high: number
}

/** Hands out each pair of places in the list whose boxes may meet, once. */
export type EachPair = (boxes: readonly Box[], visit: (one: number, other: number) => void) => void

/**
 * Every pair of boxes that share a cell of a grid with about as many cells as boxes: all that meet are among them. For boxes
 * of the size of a cell the time grows with their number, not with its square.
 */
export const eachNeighbour: EachPair = (boxes, visit) => {
  const cells = cellsFor(boxes)
  const chains = new Chains(cells.columns * cells.rows)
  const met = new Int32Array(boxes.length).fill(-1)
  for (const [index, box] of boxes.entries()) {
    const { left, right, low, high } = cells.range(box)
    for (let row = low; row <= high; row++) {
      for (let cell = row * cells.columns + left; cell <= row * cells.columns + right; cell++) {
        chains.each(cell, (other) => {
          if (met[other] === index) return
          met[other] = index
          visit(other, index)
        })
        chains.add(cell, index)
      }
    }
  }
}

/** Lists of numbers, one for each cell, linked from the newest to the oldest. */
class Chains {
  private readonly heads: Int32Array
  private readonly values: number[] = []
  private readonly older: number[] = []

  constructor(cells: number) {
    this.heads = new Int32Array(cells).fill(-1)
  }

  add(cell: number, value: number): void {
    this.older.push(this.heads[cell] ?? -1)
    this.heads[cell] = this.values.push(value) - 1
  }

  each(cell: number, visit: (value: number) => void): void {
    for (let entry = this.heads[cell] ?? -1; entry >= 0; entry = this.older[entry] ?? -1) {
      visit(this.values[entry] ?? -1)
    }
  }
}

interface Cells {
  readonly columns: number
  readonly rows: number
  /** First and last column and row that a box touches. */
  range(box: Box): Box
}

function cellsFor(boxes: readonly Box[]): Cells {
  let [left, right, low, high] = [Infinity, -Infinity, Infinity, -Infinity]
  for (const box of boxes) {
    left = Math.min(left, box.left)
    right = Math.max(right, box.right)
    low = Math.min(low, box.low)
    high = Math.max(high, box.high)
  }
  if (boxes.length === 0) return { columns: 0, rows: 0, range: (box) => box }
  const [width, height] = [right - left + 1, high - low + 1]
  const size = Math.max(
    Math.sqrt((width * height) / boxes.length),
    width / boxes.length,
    height / boxes.length,
  )
  const column = (x: number): number => Math.floor((x - left) / size)
  const row = (y: number): number => Math.floor((y - low) / size)
  return {
    columns: column(right) + 1,
    rows: row(high) + 1,
    range: (box) => ({
      left: column(box.left),
      right: column(box.right),
      low: row(box.low),
      high: row(box.high),
    }),
  }
}
