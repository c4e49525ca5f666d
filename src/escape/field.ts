import type { Ball, Package } from '../board/packages.ts'
import type { Point } from '../units/quantity.ts'

/**
 * The package as a field of sites, one for each ball: where its land is, and where its via stands.
 *
 * A dog-bone leads from the land to the middle of four balls, half a pitch along both axes: away from the middle of
 * the package, which opens a lane along both middle lines, or all in one direction. Either way no two vias share a
 * place. Vias of a stated via pitch keep that pitch about the same centre.
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
  readonly direction: DogBoneDirection
}

/** Where the vias lie from their lands. */
export const DOG_BONE_DIRECTIONS = ['outwards', 'up right', 'up left', 'down right', 'down left'] as const
export type DogBoneDirection = (typeof DOG_BONE_DIRECTIONS)[number]

/** Balls this far off their place in the grid still count as on it. */
const ON_GRID = 1e-6

export function fieldOf(pack: Package, direction: DogBoneDirection = 'outwards'): Field {
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
    vias: balls.map((ball) => (dogBone ? viaSite(pack, ball, direction) : { x: ball.x, y: ball.y })),
    aligned: !crowded && balls.every((ball) => onGrid(pack, ball)),
    dogBone,
    direction,
  }
}

/** Ring of a place in the grid, 1 at the edge. */
export function ringOf(row: number, column: number, rows: number, columns: number): number {
  return 1 + Math.min(row, column, rows - 1 - row, columns - 1 - column)
}

/** Which way the dog-bone of a column of balls leads: −1 to the left, 1 to the right. */
export function stepAcross(direction: DogBoneDirection, column: number, columns: number): -1 | 1 {
  if (direction === 'outwards') return column < columns / 2 ? -1 : 1
  return direction.endsWith('right') ? 1 : -1
}

/** Which way the dog-bone of a row of balls leads: 1 up, towards row A, or −1 down. */
export function stepUpwards(direction: DogBoneDirection, row: number, rows: number): -1 | 1 {
  if (direction === 'outwards') return row < rows / 2 ? 1 : -1
  return direction.startsWith('up') ? 1 : -1
}

function viaSite(pack: Package, ball: Ball, direction: DogBoneDirection): Point {
  const { pitch, viaPitch } = pack
  return {
    x: (ball.x * viaPitch.x) / pitch.x + (stepAcross(direction, ball.column, pack.columns) * viaPitch.x) / 2,
    y: (ball.y * viaPitch.y) / pitch.y + (stepUpwards(direction, ball.row, pack.rows) * viaPitch.y) / 2,
  }
}

function onGrid(pack: Package, ball: { row: number; column: number; x: number; y: number }): boolean {
  const x = (ball.column - (pack.columns - 1) / 2) * pack.pitch.x
  const y = ((pack.rows - 1) / 2 - ball.row) * pack.pitch.y
  return Math.abs(x - ball.x) <= ON_GRID && Math.abs(y - ball.y) <= ON_GRID
}
