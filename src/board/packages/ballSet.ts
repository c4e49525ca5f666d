import { BALL_NAME_RULE, ballName, parseBallName, type GridPlace } from '../ballName.ts'
import type { Path } from '../document/path.ts'
import type { Notes } from '../notes.ts'
import { MAX_GRID } from '../schema/packageSchema.ts'

export interface GridSize {
  readonly rows: number
  readonly columns: number
}

/** `missing` as written: the places it takes out of the grid. Problems are noted. */
export function placesOf(entries: readonly string[], size: GridSize, path: Path, notes: Notes): Set<string> {
  const names = new Set<string>()
  entries.forEach((entry, index) => {
    const corners = entry.split(':').map((corner) => corner.trim())
    const [first, last] = [parseBallName(corners[0] ?? ''), parseBallName(corners.at(-1) ?? '')]
    if (first === null || last === null || corners.length > 2) {
      notes.error([...path, index], {
        found: `"${entry}"`,
        allowed: `a ball, or two with a colon between for a rectangle, such as H8:N13; a ball is ${BALL_NAME_RULE}`,
      })
      return
    }
    const outside = [first, last].find((place) => !isInside(place, size))
    if (outside !== undefined) {
      notes.error([...path, index], outsideGrid(ballName(outside), size))
      return
    }
    for (const place of rectangle(first, last)) names.add(ballName(place))
  })
  return names
}

/** Every place of the grid, row by row. */
export function allPlaces({ rows, columns }: GridSize): GridPlace[] {
  return rectangle({ row: 0, column: 0 }, { row: rows - 1, column: columns - 1 })
}

function rectangle(one: GridPlace, other: GridPlace): GridPlace[] {
  const [top, bottom] = [Math.min(one.row, other.row), Math.max(one.row, other.row)]
  const [left, right] = [Math.min(one.column, other.column), Math.max(one.column, other.column)]
  const columns = Array.from({ length: right - left + 1 }, (_, index) => left + index)
  return Array.from({ length: bottom - top + 1 }, (_, index) => top + index).flatMap((row) =>
    columns.map((column) => ({ row, column })),
  )
}

export function isInside({ row, column }: GridPlace, { rows, columns }: GridSize): boolean {
  return row < rows && column < columns
}

export function outsideGrid(
  name: string,
  size: GridSize,
): { found: string; allowed: string; message: string } {
  const last = ballName({ row: size.rows - 1, column: size.columns - 1 })
  return {
    found: `ball ${name}`,
    allowed: `A1 to ${last}`,
    message: `Ball ${name} lies outside the grid of ${size.rows} rows and ${size.columns} columns, which goes from A1 to ${last}.`,
  }
}

/** Grid that just holds these balls. */
export function extentOf(places: readonly GridPlace[]): GridSize {
  return {
    rows: places.reduce((most, { row }) => Math.max(most, row + 1), 0),
    columns: places.reduce((most, { column }) => Math.max(most, column + 1), 0),
  }
}

export function isTooLarge({ rows, columns }: GridSize): boolean {
  return rows > MAX_GRID || columns > MAX_GRID
}
