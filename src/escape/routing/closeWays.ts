import { distanceBetweenSegments } from '../../routes/segmentDistance.ts'
import type { Metres, Point } from '../../units/quantity.ts'
import { DOWN, LEFT, RIGHT, UP, WAYS } from './lattice.ts'
import type { Lattice } from './lattice.ts'

/** No node: unlike −1, which is what lies next to an exit. */
export const NOBODY = -2

/** Something on the layer that centre lines keep away from: a disc where both ends are one point. */
export interface Obstruction {
  readonly from: Point
  readonly to: Point
  /** From the line between the two to the nearest centre of a trace. */
  readonly distance: Metres
}

/** A rectangle that traces stay out of. */
export interface ClosedArea {
  readonly low: Point
  readonly high: Point
}

/**
 * Closes every way whose centre line comes nearer to an obstruction than its distance, less the tolerance.
 * @param spared A node that may still be left, by its own net: its ways stay open.
 */
export function closeAround(
  lattice: Lattice,
  obstruction: Obstruction,
  tolerance: Metres,
  spared = NOBODY,
): void {
  const { from, to, distance } = obstruction
  const needed = distance - tolerance
  if (needed <= 0) return
  const left = Math.min(from.x, to.x) - needed
  const right = Math.max(from.x, to.x) + needed
  const low = Math.min(from.y, to.y) - needed
  const high = Math.max(from.y, to.y) + needed
  // One line further out on each side: a step may begin there and end inside.
  const columns = lineRange(lattice.xs, left, right)
  const rows = lineRange(lattice.ys, low, high)
  const isDisc = from.x === to.x && from.y === to.y
  const isNear = (node: number, way: number): boolean =>
    isDisc
      ? lattice.distanceToStep(node, way, from) < needed
      : distanceBetweenSegments(from, to, lattice.pointAt(node), lattice.stepEnd(node, way)) < needed
  for (let row = rows.first; row <= rows.last; row += 1) {
    for (let column = columns.first; column <= columns.last; column += 1) {
      const node = lattice.nodeAt(column, row)
      if (node === spared || lattice.open[node] === 0) continue
      for (const way of WAYS) {
        if (!lattice.isOpen(node, way) || lattice.next(node, way) === spared) continue
        if (isNear(node, way)) lattice.close(node, way)
      }
    }
  }
}

/** Closes every way that touches the area when traces of the given width run there. */
export function closeArea(lattice: Lattice, area: ClosedArea, half: Metres, tolerance: Metres): void {
  const grown = half - tolerance
  const columns = lineRange(lattice.xs, area.low.x - grown, area.high.x + grown)
  const rows = lineRange(lattice.ys, area.low.y - grown, area.high.y + grown)
  for (let row = rows.first; row <= rows.last; row += 1) {
    for (let column = columns.first; column <= columns.last; column += 1) {
      const node = lattice.nodeAt(column, row)
      for (const way of [RIGHT, UP, LEFT, DOWN]) {
        const start = lattice.pointAt(node)
        const end = lattice.stepEnd(node, way)
        if (
          Math.max(start.x, end.x) > area.low.x - grown &&
          Math.min(start.x, end.x) < area.high.x + grown &&
          Math.max(start.y, end.y) > area.low.y - grown &&
          Math.min(start.y, end.y) < area.high.y + grown
        ) {
          lattice.close(node, way)
        }
      }
    }
  }
}

/** Lines within two lengths, and the next one on either side. */
function lineRange(lines: Float64Array, low: Metres, high: Metres): { first: number; last: number } {
  return {
    first: Math.max(0, firstAbove(lines, low) - 1),
    last: Math.min(lines.length - 1, firstAbove(lines, high)),
  }
}

function firstAbove(lines: Float64Array, value: Metres): number {
  let low = 0
  let high = lines.length
  while (low < high) {
    const middle = (low + high) >> 1
    if ((lines[middle] ?? 0) > value) high = middle
    else low = middle + 1
  }
  return low
}
