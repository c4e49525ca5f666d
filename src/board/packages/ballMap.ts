import { parse } from 'csv-parse/sync'
import { parseBallName } from '../ballName.ts'
import { decodeText } from '../document/decodeText.ts'
import type { Issue } from '../issue.ts'
import { findColumns, type Columns } from './ballMapColumns.ts'

/** One row of a ball map. */
export interface BallRow {
  /** In capitals. */
  readonly ball: string
  /** Null where the file has no such column; empty where the cell is. */
  readonly net: string | null
  readonly pinFunction: string | null
  readonly bank: string | null
  /** As written, with the unit of the column's heading added where the cell has none. */
  readonly x: string | null
  readonly y: string | null
  /** One-based. */
  readonly line: number
}

export interface BallMap {
  readonly file: string
  readonly rows: readonly BallRow[]
  readonly hasNets: boolean
  readonly issues: readonly Issue[]
}

const MAX_BALL_MAP_BYTES = 5_000_000

/**
 * Reads a ball map: UTF-8, comma, semicolon or tab, `#` comments and title rows before the headings
 * skipped. Columns are known by many names (see `ballMapColumns`); only the ball and one of net and
 * function must be there. Every fault is an issue with this file's name and line.
 */
export function readBallMap(file: string, bytes: string | Uint8Array): BallMap {
  const decoded = decodeText(bytes, MAX_BALL_MAP_BYTES)
  if (!decoded.ok) {
    const message = `${file} is ${decoded.found}; allowed: ${decoded.allowed}.`
    return failed(file, { ...decoded, message })
  }
  const table = splitRows(file, decoded.text)
  if (!table.ok) return failed(file, table.problem)
  const heading = table.rows.findIndex((row) => findColumns(row.cells) !== null)
  const columns = findColumns(table.rows[heading]?.cells ?? [])
  if (columns === null) {
    return failed(file, {
      line: 1,
      found: 'no row of headings',
      allowed: 'a row that names a ball column (ball, pin, position, number) and a net or function column',
      message: `${file} has no row of headings with a ball column (ball, pin, position, number) and a net or function column.`,
    })
  }
  return { file, hasNets: columns.net !== null, ...readRows(file, table.rows.slice(heading + 1), columns) }
}

interface Row {
  readonly cells: readonly string[]
  readonly line: number
}

interface RowProblem {
  readonly line: number | null
  readonly found: string
  readonly allowed: string
  readonly message: string
}

type Table =
  { readonly ok: true; readonly rows: readonly Row[] } | { readonly ok: false; readonly problem: RowProblem }

function splitRows(file: string, text: string): Table {
  const head = text.slice(0, 4000)
  const count = (delimiter: string): number => head.split(delimiter).length
  const delimiter = [',', ';', '\t'].reduce((best, next) => (count(next) > count(best) ? next : best))
  try {
    const records = parse(text, {
      delimiter,
      comment: '#',
      comment_no_infix: true,
      info: true,
      relax_column_count: true,
      relax_quotes: true,
      skip_empty_lines: true,
      trim: true,
    }) as unknown as { record: string[]; info: { lines: number } }[]
    return { ok: true, rows: records.map(({ record, info }) => ({ cells: record, line: info.lines })) }
  } catch (error) {
    const line =
      error instanceof Error && 'lines' in error && typeof error.lines === 'number' ? error.lines : null
    const said = error instanceof Error ? error.message : String(error)
    const found = `a row that is no CSV (${said})`
    return {
      ok: false,
      problem: { line, found, allowed: 'quotes closed', message: `${file} has ${found}.` },
    }
  }
}

function readRows(
  file: string,
  rows: readonly Row[],
  columns: Columns,
): { rows: BallRow[]; issues: Issue[] } {
  const seen = new Map<string, number>()
  const issues: Issue[] = []
  const read = rows.flatMap(({ cells, line }): BallRow[] => {
    const cell = (column: number | null): string | null => (column === null ? null : (cells[column] ?? ''))
    const ball = (cell(columns.ball) ?? '').toUpperCase()
    if (cells.every((text) => text === '')) return []
    const fault = ballFault(file, ball, line, seen.get(ball))
    if (fault !== null) {
      issues.push(issueOf(file, fault))
      return []
    }
    seen.set(ball, line)
    const length = (column: number | null): string | null => withUnit(cell(column), columns.lengthUnit)
    return [
      {
        ball,
        net: cell(columns.net),
        pinFunction: cell(columns.pinFunction),
        bank: cell(columns.bank),
        x: length(columns.x),
        y: length(columns.y),
        line,
      },
    ]
  })
  return { rows: read, issues }
}

function ballFault(file: string, ball: string, line: number, earlier: number | undefined): RowProblem | null {
  if (parseBallName(ball) === null) {
    return {
      line,
      found: ball === '' ? 'no ball' : `"${ball}"`,
      allowed: 'a ball such as A1 or AA14',
      message: `${file} line ${line} has ${ball === '' ? 'no ball name' : `"${ball}", which is no ball name`}; rows are letters without I, O, Q, S, X, Z, columns count from 1.`,
    }
  }
  if (earlier === undefined) return null
  return {
    line,
    found: `ball ${ball} for the second time`,
    allowed: 'each ball once',
    message: `${file} line ${line} lists ball ${ball} again; it is already in line ${earlier}.`,
  }
}

/** A bare number takes the unit of its column's heading. */
function withUnit(cell: string | null, unit: string): string | null {
  if (cell === null || cell === '') return null
  return /^[-+]?[\d.]+(e[-+]?\d+)?$/i.test(cell) ? `${cell} ${unit}` : cell
}

function failed(file: string, problem: RowProblem): BallMap {
  return { file, rows: [], hasNets: false, issues: [issueOf(file, problem)] }
}

function issueOf(file: string, { line, found, allowed, message }: RowProblem): Issue {
  return { severity: 'error', file, path: '', line, column: null, found, allowed, message }
}
