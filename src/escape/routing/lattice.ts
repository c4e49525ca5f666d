import type { ExitSide } from '../../board/escapeWishes.ts'
import { hypotenuse } from '../../numerics/hypotenuse.ts'
import type { Metres, Point } from '../../units/quantity.ts'
import type { LaneLine } from './laneLines.ts'

/** The four ways on from a node. The opposite of a way is two further on. */
export const WAYS = [0, 1, 2, 3] as const
export const RIGHT = 0
export const UP = 1
export const LEFT = 2
export const DOWN = 3

const SIDES: readonly ExitSide[] = ['right', 'top', 'left', 'bottom']

/** Where traces are told to end outside the array, by side: x for left and right, y for top and bottom. */
export type Ends = Readonly<Record<ExitSide, Metres>>

/**
 * All crossings of the lane lines of one layer, as nodes `column + row · columns`, with columns from left to
 * right and rows from the bottom up. A way is open where a trace may run on to the next node, or, from the
 * outermost lines, straight out of the array.
 */
export class Lattice {
  readonly columns: number
  readonly rows: number
  readonly xs: Float64Array
  readonly ys: Float64Array
  /** One bit for each open way. */
  readonly open: Uint8Array
  readonly ends: Ends

  constructor(across: readonly LaneLine[], upwards: readonly LaneLine[], ends: Ends) {
    this.columns = across.length
    this.rows = upwards.length
    this.xs = Float64Array.from(across, ({ at }) => at)
    this.ys = Float64Array.from(upwards, ({ at }) => at)
    this.open = new Uint8Array(this.columns * this.rows).fill(15)
    this.ends = ends
  }

  get size(): number {
    return this.open.length
  }

  nodeAt(column: number, row: number): number {
    return column + row * this.columns
  }

  pointAt(node: number): Point {
    return {
      x: this.xs[node % this.columns] ?? NaN,
      y: this.ys[Math.floor(node / this.columns)] ?? NaN,
    }
  }

  /** The next node that way; −1 outside. */
  next(node: number, way: number): number {
    const column = node % this.columns
    if (way === RIGHT) return column + 1 < this.columns ? node + 1 : -1
    if (way === LEFT) return column > 0 ? node - 1 : -1
    const beyond = way === UP ? node + this.columns : node - this.columns
    return beyond >= 0 && beyond < this.size ? beyond : -1
  }

  /** Length of one step, or of the way out. */
  stepLength(node: number, way: number): Metres {
    const column = node % this.columns
    const row = (node - column) / this.columns
    return way === LEFT || way === RIGHT
      ? Math.abs(this.#along(column, row, way) - (this.xs[column] ?? NaN))
      : Math.abs(this.#along(column, row, way) - (this.ys[row] ?? NaN))
  }

  /** Where one step ends, or the way out. */
  stepEnd(node: number, way: number): Point {
    const next = this.next(node, way)
    return next === -1 ? this.exitPoint(node, way) : this.pointAt(next)
  }

  /** From a point to the nearest point of one step, or of the way out. */
  distanceToStep(node: number, way: number, { x, y }: Point): Metres {
    const column = node % this.columns
    const row = (node - column) / this.columns
    const fromX = this.xs[column] ?? NaN
    const fromY = this.ys[row] ?? NaN
    const end = this.#along(column, row, way)
    if (way === LEFT || way === RIGHT) {
      return diagonal(Math.max(Math.min(fromX, end) - x, x - Math.max(fromX, end), 0), y - fromY)
    }
    return diagonal(Math.max(Math.min(fromY, end) - y, y - Math.max(fromY, end), 0), x - fromX)
  }

  /** Between the boxes about one step, or the way out, and about the line between two points. */
  boxDistance(node: number, way: number, from: Point, to: Point): Metres {
    const column = node % this.columns
    const row = (node - column) / this.columns
    const startX = this.xs[column] ?? NaN
    const startY = this.ys[row] ?? NaN
    const end = this.#along(column, row, way)
    const isAcross = way === LEFT || way === RIGHT
    const endX = isAcross ? end : startX
    const endY = isAcross ? startY : end
    return hypotenuse(
      Math.max(
        Math.min(from.x, to.x) - Math.max(startX, endX),
        Math.min(startX, endX) - Math.max(from.x, to.x),
        0,
      ),
      Math.max(
        Math.min(from.y, to.y) - Math.max(startY, endY),
        Math.min(startY, endY) - Math.max(from.y, to.y),
        0,
      ),
    )
  }

  /** The coordinate that changes with a step, at its end. */
  #along(column: number, row: number, way: number): Metres {
    if (way === RIGHT) return this.xs[column + 1] ?? this.ends.right
    if (way === LEFT) return this.xs[column - 1] ?? this.ends.left
    if (way === UP) return this.ys[row + 1] ?? this.ends.top
    return this.ys[row - 1] ?? this.ends.bottom
  }

  exitPoint(node: number, way: number): Point {
    const { x, y } = this.pointAt(node)
    const end = this.ends[sideOf(way)]
    return way === LEFT || way === RIGHT ? { x: end, y } : { x, y: end }
  }

  /** Closes one step in both directions. */
  close(node: number, way: number): void {
    this.open[node] = (this.open[node] ?? 0) & ~(1 << way)
    const next = this.next(node, way)
    if (next !== -1) this.open[next] = (this.open[next] ?? 0) & ~(1 << ((way + 2) % 4))
  }

  /** Closes one step in this direction only. */
  closeOneWay(node: number, way: number): void {
    this.open[node] = (this.open[node] ?? 0) & ~(1 << way)
  }

  isOpen(node: number, way: number): boolean {
    return ((this.open[node] ?? 0) & (1 << way)) !== 0
  }
}

/** Beside a step, as most places are, the length along it is 0 and nothing is left to compute. */
function diagonal(along: Metres, across: Metres): Metres {
  return along === 0 ? Math.abs(across) : hypotenuse(along, across)
}

export function sideOf(way: number): ExitSide {
  return SIDES[way] ?? 'right'
}

export function wayOf(side: ExitSide): number {
  return SIDES.indexOf(side)
}
