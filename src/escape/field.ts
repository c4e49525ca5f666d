import type { Package } from '../board/packages.ts'
import type { Point } from '../units/quantity.ts'

/**
 * The package as a field of sites, one for each ball: where its land is, and where its via stands.
 *
 * A dog-bone leads from the land to the middle of four balls, half a pitch along both axes, away from
 * the middle of the package: so no two vias share a place, and a lane opens along both middle lines.
 * Vias of a stated via pitch keep that pitch about the same centre.
 */
export interface Field {
  readonly pack: Package
  readonly rows: number
  readonly columns: number
  /** Index of the ball at row · columns + column; −1 where there is none. */
  readonly cells: readonly number[]
  /** Ring of each ball, 1 at the edge of the grid. */
  readonly rings: readonly number[]
  readonly lands: readonly Point[]
  readonly vias: readonly Point[]
  /** True when every ball lies on the grid and no two share a place. */
  readonly aligned: boolean
  readonly dogBone: boolean
}

/** Balls this far off their place in the grid still count as on it. */
const ON_GRID = 1e-6

export function fieldOf(pack: Package): Field {
  const { rows, columns, balls } = pack
  const cells = new Array<number>(rows * columns).fill(-1)
  let crowded = false
  for (const [index, ball] of balls.entries()) {
    const cell = ball.row * columns + ball.column
    crowded ||= cells[cell] !== -1
    cells[cell] = index
  }
  const dogBone = pack.viaPlacement === 'dog-bone'
  return {
    pack,
    rows,
    columns,
    cells,
    rings: balls.map((ball) => ringOf(ball.row, ball.column, rows, columns)),
    lands: balls.map(({ x, y }) => ({ x, y })),
    vias: balls.map((ball) => (dogBone ? viaSite(pack, ball) : { x: ball.x, y: ball.y })),
    aligned: !crowded && balls.every((ball) => onGrid(pack, ball)),
    dogBone,
  }
}

/** Ring of a place in the grid, 1 at the edge. */
export function ringOf(row: number, column: number, rows: number, columns: number): number {
  return 1 + Math.min(row, column, rows - 1 - row, columns - 1 - column)
}

/** Which way, along the rows and along the columns, the dog-bone of a place leads: −1 towards row A or column 1. */
export function outwardStep(place: number, count: number): -1 | 1 {
  return place < count / 2 ? -1 : 1
}

function viaSite(pack: Package, ball: { row: number; column: number; x: number; y: number }): Point {
  const { pitch, viaPitch } = pack
  return {
    x: (ball.x * viaPitch.x) / pitch.x + (outwardStep(ball.column, pack.columns) * viaPitch.x) / 2,
    y: (ball.y * viaPitch.y) / pitch.y - (outwardStep(ball.row, pack.rows) * viaPitch.y) / 2,
  }
}

function onGrid(pack: Package, ball: { row: number; column: number; x: number; y: number }): boolean {
  const x = (ball.column - (pack.columns - 1) / 2) * pack.pitch.x
  const y = ((pack.rows - 1) / 2 - ball.row) * pack.pitch.y
  return Math.abs(x - ball.x) <= ON_GRID && Math.abs(y - ball.y) <= ON_GRID
}
