import type { Metres, Point } from '../units/quantity.ts'
import type { Field } from './field.ts'

export type SideName = 'top' | 'bottom' | 'left' | 'right'

/**
 * The grid as seen from one side: lines run outwards, places on a line are counted by depth from the
 * outside. `along` grows from line to line, `outward` towards the outside.
 */
export interface Side {
  readonly name: SideName
  readonly lines: number
  /** Depths of the near half of the grid: no net leaves through the far half. */
  readonly depths: number
  /** Index of a ball; −1 where there is none. */
  ballAt(line: number, depth: number): number
  along(point: Point): Metres
  outward(point: Point): Metres
  pointAt(along: Metres, outward: Metres): Point
  /** Distance between neighbouring depths. */
  depthPitch(pitch: { readonly x: Metres; readonly y: Metres }): Metres
}

export function sidesOf(field: Field): readonly Side[] {
  const { rows, columns, cells } = field
  const at = (row: number, column: number): number =>
    column >= 0 && column < columns ? (cells[row * columns + column] ?? -1) : -1
  const vertical = { lines: columns, depths: Math.ceil(rows / 2), depthPitch: (pitch: Point) => pitch.y }
  const horizontal = { lines: rows, depths: Math.ceil(columns / 2), depthPitch: (pitch: Point) => pitch.x }
  return [
    {
      name: 'top',
      ...vertical,
      ballAt: (line, depth) => at(depth, line),
      along: ({ x }) => x,
      outward: ({ y }) => y,
      pointAt: (along, outward) => ({ x: along, y: outward }),
    },
    {
      name: 'bottom',
      ...vertical,
      ballAt: (line, depth) => at(rows - 1 - depth, line),
      along: ({ x }) => x,
      outward: ({ y }) => 0 - y,
      pointAt: (along, outward) => ({ x: along, y: 0 - outward }),
    },
    {
      name: 'left',
      ...horizontal,
      ballAt: (line, depth) => at(line, depth),
      along: ({ y }) => 0 - y,
      outward: ({ x }) => 0 - x,
      pointAt: (along, outward) => ({ x: 0 - outward, y: 0 - along }),
    },
    {
      name: 'right',
      ...horizontal,
      ballAt: (line, depth) => at(line, columns - 1 - depth),
      along: ({ y }) => 0 - y,
      outward: ({ x }) => x,
      pointAt: (along, outward) => ({ x: outward, y: 0 - along }),
    },
  ]
}

/** Where a ball stands as seen from one side. */
export interface Stand {
  readonly side: Side
  readonly line: number
  readonly depth: number
}

/**
 * The sides that a ball is nearest to: one, or two on a diagonal, or more in the middle. A net leaves through
 * one of these only. Then no two nets of different sides ever meet between the same four places: one
 * that leaves upwards from row r, column c ≥ r and one that leaves to the left from row r′ ≥ c′ would need
 * r′ ≤ r ≤ c ≤ c′ ≤ r′, which only one and the same ball fulfils.
 */
export function standsOf(field: Field, sides: readonly Side[], ball: number): Stand[] {
  const { row = 0, column = 0 } = field.pack.balls[ball] ?? {}
  const depthFrom: Record<SideName, number> = {
    top: row,
    bottom: field.rows - 1 - row,
    left: column,
    right: field.columns - 1 - column,
  }
  const least = Math.min(...Object.values(depthFrom))
  return sides
    .filter((side) => depthFrom[side.name] === least)
    .map((side) => ({
      side,
      line: side.name === 'top' || side.name === 'bottom' ? column : row,
      depth: least,
    }))
}
