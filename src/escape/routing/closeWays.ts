import { distanceBetweenSegments, distanceToSegment } from '../../routes/segmentDistance.ts'
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
  for (const step of nearSteps(lattice, obstruction, tolerance)) {
    const node = step >> 2
    const way = step & 3
    if (node !== spared && lattice.next(node, way) !== spared) lattice.close(node, way)
  }
}

/**
 * Closes the ways into the surroundings of an obstruction that stands only where its own net does not leave: from
 * the start of that net, and on within the surroundings, they stay open, and so do those that lead out. The places
 * between the start and the surroundings are kept for that net as well.
 */
export function closeInwards(
  lattice: Lattice,
  obstructions: readonly Obstruction[],
  tolerance: Metres,
  start: number,
): void {
  const inside = [start]
  // Steps as 4 · node + way.
  const near: number[] = []
  for (const obstruction of obstructions) {
    const needed = obstruction.distance - tolerance
    const note = (node: number, way: number): void => {
      near.push(4 * node + way)
      if (inside.includes(node)) return
      if (distanceToSegment(lattice.pointAt(node), obstruction.from, obstruction.to) < needed)
        inside.push(node)
    }
    for (const step of nearSteps(lattice, obstruction, tolerance)) {
      note(step >> 2, step & 3)
      const next = lattice.next(step >> 2, step & 3)
      if (next !== -1) note(next, (step + 2) & 3)
    }
  }
  const beside = start === NOBODY ? [] : WAYS.map((way) => lattice.next(start, way))
  for (const node of beside) {
    if (inside.includes(node) || !near.some((step) => step >> 2 === node)) continue
    inside.push(node)
    for (const way of WAYS) {
      const from = lattice.next(node, way)
      if (from !== -1) near.push(4 * from + ((way + 2) & 3))
    }
  }
  for (const step of near) if (!inside.includes(step >> 2)) lattice.closeOneWay(step >> 2, step & 3)
}

/** Every open step near an obstruction once, from its left or lower end, and every way out, as 4 · node + way. */
function nearSteps(lattice: Lattice, obstruction: Obstruction, tolerance: Metres): number[] {
  const { from, to, distance } = obstruction
  const steps: number[] = []
  const needed = distance - tolerance
  if (needed <= 0) return steps
  const { xs, ys } = lattice
  const columns = lineRange(xs, Math.min(from.x, to.x) - needed, Math.max(from.x, to.x) + needed)
  const rows = lineRange(ys, Math.min(from.y, to.y) - needed, Math.max(from.y, to.y) + needed)
  const look = (node: number, way: number): void => {
    if (lattice.isOpen(node, way) && isStepNearer(lattice, node, way, obstruction, needed))
      steps.push(4 * node + way)
  }
  // A step along a line that is near may begin one line before, and a way out at the outermost line.
  for (let row = rows.first; row <= rows.last; row += 1) {
    const leftmost = row * lattice.columns
    if (columns.first === 0) look(leftmost, LEFT)
    for (let column = Math.max(0, columns.first - 1); column <= columns.last; column += 1)
      look(leftmost + column, RIGHT)
  }
  for (let column = columns.first; column <= columns.last; column += 1) {
    if (rows.first === 0) look(column, DOWN)
    for (let row = Math.max(0, rows.first - 1); row <= rows.last; row += 1)
      look(row * lattice.columns + column, UP)
  }
  return steps
}

/** Distances that differ by more than this do so for certain, however they are computed. */
const ROUNDING: Metres = 1e-12

/**
 * True where a step comes nearer than `needed` to the line of an obstruction. Between two lines along the axes, and a point
 * is one, the distance is that of two boxes; of slanted ones the boxes tell which are too far. The distance between
 * the lines decides where that leaves it open.
 */
function isStepNearer(
  lattice: Lattice,
  node: number,
  way: number,
  { from, to }: Obstruction,
  needed: Metres,
): boolean {
  const isPoint = from.x === to.x && from.y === to.y
  if (isPoint) return lattice.distanceToStep(node, way, from) < needed
  const apart = lattice.boxDistance(node, way, from, to)
  if (apart > needed + ROUNDING) return false
  if (apart < needed - ROUNDING && (from.x === to.x || from.y === to.y)) return true
  return distanceBetweenSegments(from, to, lattice.pointAt(node), lattice.stepEnd(node, way)) < needed
}

/** Closes every way that touches the area when traces of the given width run there. */
export function closeArea(lattice: Lattice, area: ClosedArea, half: Metres, tolerance: Metres): void {
  const grown = half - tolerance
  const columns = withNext(lattice.xs, area.low.x - grown, area.high.x + grown)
  const rows = withNext(lattice.ys, area.low.y - grown, area.high.y + grown)
  for (let row = rows.first; row <= rows.last; row += 1) {
    for (let column = columns.first; column <= columns.last; column += 1) {
      const node = lattice.nodeAt(column, row)
      for (const way of WAYS) {
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

/** Lines within two lengths: none where the last comes before the first. */
function lineRange(lines: Float64Array, low: Metres, high: Metres): { first: number; last: number } {
  return { first: firstAbove(lines, low), last: firstAbove(lines, high) - 1 }
}

/** Lines within two lengths, and the next one on either side. */
function withNext(lines: Float64Array, low: Metres, high: Metres): { first: number; last: number } {
  const { first, last } = lineRange(lines, low, high)
  return { first: Math.max(0, first - 1), last: Math.min(lines.length - 1, last + 1) }
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
