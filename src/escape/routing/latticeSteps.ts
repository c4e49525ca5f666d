import { DOWN, LEFT, RIGHT, UP, WAYS } from './lattice.ts'
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
  const { size, columns, rows } = lattice
  const ways = lattice.open.slice()
  const lengths = new Float64Array(4 * size)
  const neighbours = new Int32Array(4 * size)
  // Steps across are alike in every row, and steps upwards in every column.
  const across = Float64Array.from({ length: columns }, (_, column) => nanometres(lattice, column, RIGHT))
  const upwards = Float64Array.from({ length: rows }, (_, row) => nanometres(lattice, row * columns, UP))
  const outLeft = nanometres(lattice, 0, LEFT)
  let down = nanometres(lattice, 0, DOWN)
  for (let row = 0, step = 0; row < rows; row += 1) {
    const up = upwards[row] ?? NaN
    let left = outLeft
    for (let column = 0; column < columns; column += 1, step += 4) {
      const node = step >> 2
      const right = across[column] ?? NaN
      lengths[step + RIGHT] = right
      lengths[step + UP] = up
      lengths[step + LEFT] = left
      lengths[step + DOWN] = down
      neighbours[step + RIGHT] = node + 1
      neighbours[step + UP] = node + columns
      neighbours[step + LEFT] = node - 1
      neighbours[step + DOWN] = node - columns
      left = right
    }
    down = up
  }
  for (let row = 0; row < rows; row += 1) {
    neighbours[4 * row * columns + LEFT] = OUTSIDE
    neighbours[4 * (row * columns + columns - 1) + RIGHT] = OUTSIDE
  }
  for (let column = 0; column < columns; column += 1) {
    neighbours[4 * column + DOWN] = OUTSIDE
    neighbours[4 * (size - columns + column) + UP] = OUTSIDE
  }
  const steps = { size, ways, lengths, neighbours }
  for (let node = 0; node < size; node += 1) if (through[node] !== 1) closeInto(steps, node)
  for (const way of WAYS) if (!mayExit(way)) closeExits(steps, way)
  return steps
}

/** No path may enter a node. */
function closeInto({ ways, neighbours }: LatticeSteps, node: number): void {
  for (let way = 0; way < 4; way += 1) {
    const before = neighbours[4 * node + way] ?? OUTSIDE
    if (before !== OUTSIDE) ways[before] = (ways[before] ?? 0) & ~(1 << ((way + 2) & 3))
  }
}

/** No path may leave the lattice that way. */
function closeExits({ size, ways, neighbours }: LatticeSteps, way: number): void {
  for (let node = 0; node < size; node += 1) {
    if (neighbours[4 * node + way] === OUTSIDE) ways[node] = (ways[node] ?? 0) & ~(1 << way)
  }
}

function nanometres(lattice: Lattice, node: number, way: number): number {
  return Math.max(1, Math.round(lattice.stepLength(node, way) * STEPS_PER_METRE))
}
