import { DOWN, LEFT, RIGHT, UP } from './lattice.ts'
import type { Lattice } from './lattice.ts'

/** Lengths are counted in whole nanometres, so that sums and differences of them are exact. */
export const STEPS_PER_METRE = 1e9

/** What lies next to an exit. */
export const OUTSIDE = -1

/** All steps of a lattice as they are looked up in a search, by 4 · node + way. */
export interface LatticeSteps {
  readonly size: number
  /** By node, one bit for each way that a path may take from there. */
  readonly ways: Uint8Array
  /** In nanometres, whether a path may go there or not. */
  readonly lengths: Float64Array
  /** The next node, whether a path may go there or not. */
  readonly neighbours: Int32Array
}

/**
 * @param through 1 for nodes that a path may lead through: no way leads to the others.
 * @param mayExit Whether the outside may be reached that way from the outermost lines.
 */
export function latticeSteps(
  lattice: Lattice,
  through: Uint8Array,
  mayExit: (way: number) => boolean,
): LatticeSteps {
  const { size, columns, rows, open } = lattice
  const ways = new Uint8Array(size)
  const lengths = new Float64Array(4 * size)
  const neighbours = new Int32Array(4 * size)
  // Steps across are alike in every row, and steps upwards in every column.
  const across = Float64Array.from({ length: columns }, (_, column) => nanometres(lattice, column, RIGHT))
  const upwards = Float64Array.from({ length: rows }, (_, row) => nanometres(lattice, row * columns, UP))
  const outLeft = nanometres(lattice, 0, LEFT)
  const outDown = nanometres(lattice, 0, DOWN)
  const exits = bitOf(mayExit, RIGHT) | bitOf(mayExit, UP) | bitOf(mayExit, LEFT) | bitOf(mayExit, DOWN)
  for (let node = 0; node < size; node += 1) {
    const column = node % columns
    const row = (node - column) / columns
    const first = 4 * node
    neighbours[first + RIGHT] = column + 1 < columns ? node + 1 : OUTSIDE
    neighbours[first + UP] = row + 1 < rows ? node + columns : OUTSIDE
    neighbours[first + LEFT] = column > 0 ? node - 1 : OUTSIDE
    neighbours[first + DOWN] = row > 0 ? node - columns : OUTSIDE
    lengths[first + RIGHT] = across[column] ?? NaN
    lengths[first + UP] = upwards[row] ?? NaN
    lengths[first + LEFT] = across[column - 1] ?? outLeft
    lengths[first + DOWN] = upwards[row - 1] ?? outDown
    let leading = 0
    for (let way = 0; way < 4; way += 1) {
      const next = neighbours[first + way] ?? OUTSIDE
      if (next === OUTSIDE ? (exits & (1 << way)) !== 0 : through[next] === 1) leading |= 1 << way
    }
    ways[node] = (open[node] ?? 0) & leading
  }
  return { size, ways, lengths, neighbours }
}

function bitOf(mayExit: (way: number) => boolean, way: number): number {
  return mayExit(way) ? 1 << way : 0
}

function nanometres(lattice: Lattice, node: number, way: number): number {
  return Math.max(1, Math.round(lattice.stepLength(node, way) * STEPS_PER_METRE))
}
