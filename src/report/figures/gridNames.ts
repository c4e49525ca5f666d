import { INK, TYPE } from '../../charts/ink.ts'
import { label } from '../../charts/marks.ts'
import type { Place } from '../../charts/marks.ts'
import type { Point } from '../../units/quantity.ts'
import type { Package } from '../../board/packages.ts'

export interface GridNameSpec {
  /** Middle of the row letters across, and baseline of the column numbers. */
  readonly left: number
  readonly top: number
  /** Distance between neighbouring places in the drawing. */
  readonly cell: number
  readonly place: (at: Point) => Place
}

/** Rows closer than this are named every fifth. */
const LEAST_CELL = 9

/** Row letters at the left, column numbers on top, every one or every fifth so that they do not touch. */
export function gridNames(pack: Package, { left, top, cell, place }: GridNameSpec): string[] {
  if (!pack.onGrid) return []
  const thin = cell < LEAST_CELL
  const style = {
    'font-size': Math.min(TYPE.small, (thin ? 2 : 1) * cell * 0.72),
    fill: INK.quiet,
    'text-anchor': 'middle',
  }
  const rows = new Map(pack.balls.map((ball) => [ball.row, ball.name.replace(/\d+$/, '')]))
  const step = cell >= 18 ? 1 : 5
  const columns = Array.from({ length: pack.columns }, (_, column) => column).filter(
    (column) => column === 0 || (column + 1) % step === 0,
  )
  return [
    ...[...rows]
      .filter(([row]) => !thin || row === 0 || (row + 1) % 5 === 0)
      .map(([row, name]) => {
        const y = ((pack.rows - 1) / 2 - row) * pack.pitch.y
        return label(name, { x: left, y: place({ x: 0, y }).y + 3.5 }, style)
      }),
    ...columns.map((column) => {
      const x = (column - (pack.columns - 1) / 2) * pack.pitch.x
      return label(String(column + 1), { x: place({ x, y: 0 }).x, y: top }, style)
    }),
  ]
}
