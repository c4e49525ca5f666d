import { DOWN, LEFT, RIGHT, UP, WAYS } from './lattice.ts'
import type { Lattice } from './lattice.ts'

/** Lengths are counted in whole nanometres, so that sums and differences of them are exact. */
export const STEPS_PER_METRE = 1e9

/** What lies next to an exit. */
export const OUTSIDE = -1

/** All steps of a lattice as they are looked up in a search, by 4 · node + way. */
export interface LatticeSteps {
  readonly size: number
  /** In nanometres; Infinity where the way is closed. */
  readonly lengths: Float64Array
  /** The next node, whether the way is open or not. */
  readonly neighbours: Int32Array
}

/** @param mayExit Whether the outside may be reached that way from the outermost lines. */
export function latticeSteps(lattice: Lattice, mayExit: (way: number) => boolean): LatticeSteps {
  const { size, columns, rows } = lattice
  const neighbours = new Int32Array(4 * size)
  const lengths = new Float64Array(4 * size).fill(Infinity)
  const exits = WAYS.map((way) => mayExit(way))
  const set = (node: number, way: number, next: number, length: number): void => {
    neighbours[4 * node + way] = next
    if (lattice.isOpen(node, way) && (next !== OUTSIDE || exits[way] === true))
      lengths[4 * node + way] = length
  }
  // Steps across are alike in every row, and steps upwards in every column.
  const across = Array.from({ length: columns }, (_, column) => nanometres(lattice, column, RIGHT))
  const outLeft = nanometres(lattice, 0, LEFT)
  for (let row = 0; row < rows; row += 1) {
    const first = lattice.nodeAt(0, row)
    const up = nanometres(lattice, first, UP)
    const down = nanometres(lattice, first, DOWN)
    for (let column = 0; column < columns; column += 1) {
      const node = first + column
      set(node, RIGHT, column + 1 < columns ? node + 1 : OUTSIDE, across[column] ?? NaN)
      set(node, LEFT, column > 0 ? node - 1 : OUTSIDE, across[column - 1] ?? outLeft)
      set(node, UP, row + 1 < rows ? node + columns : OUTSIDE, up)
      set(node, DOWN, row > 0 ? node - columns : OUTSIDE, down)
    }
  }
  return { size, lengths, neighbours }
}

function nanometres(lattice: Lattice, node: number, way: number): number {
  return Math.max(1, Math.round(lattice.stepLength(node, way) * STEPS_PER_METRE))
}
