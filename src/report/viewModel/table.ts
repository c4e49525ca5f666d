import { ABSENT, keepTogether } from './words.ts'

/** A table as the views print it: every text made, every choice decided. */
export interface Table {
  /** Unique on the page. */
  readonly id: string
  readonly caption: string
  readonly columns: readonly Column[]
  readonly rows: readonly Row[]
  readonly hasRows: boolean
  /** Row heads that are sentences rather than names. */
  readonly plainHeads: boolean
  /** Few enough rows to stay on one page of print. */
  readonly short: boolean
  /** Too broad for a phone: there each row becomes a block of its own, every cell under its title. */
  readonly broad: boolean
  /** Printed in place of a table without rows. */
  readonly whenEmpty: string
  readonly notes: readonly string[]
}

export interface Column {
  readonly title: string
  readonly numeric: boolean
  /** Holds sentences: gets room for a few words a line. */
  readonly wide: boolean
}

export interface Row {
  readonly cells: readonly Cell[]
}

export interface Cell {
  readonly text: string
  /** Title of its column, said again where a row is a block of its own. */
  readonly title: string
  readonly numeric: boolean
  /** How it is set: `number`, `wide`, and `absent` where it says only that there is nothing. */
  readonly classes: string
  /** First cell of a row: names it for those who hear the table. */
  readonly heading: boolean
  /** Further, quieter lines. */
  readonly notes: readonly string[]
  /** Where the text leads; null for plain text. */
  readonly href: string | null
  /** Said beside the text, e.g. `assumed`. */
  readonly mark: string | null
  readonly verdict: Verdict | null
}

/** In words, with a sign for the eye; never by colour alone. */
export interface Verdict {
  readonly tone: 'pass' | 'watch' | 'fail' | 'note'
  readonly sign: string
  readonly text: string
}

const SIGNS = { pass: '✓', watch: '!', fail: '✗', note: 'i' } as const

export function verdict(tone: Verdict['tone'], text: string): Verdict {
  return { tone, sign: SIGNS[tone], text }
}

/** What a cell may be written as: plain text, or text with something beside it. */
export type CellText = string | ({ readonly text: string } & CellExtras)

interface CellExtras {
  readonly href?: string
  readonly note?: string | null
  readonly notes?: readonly string[]
  readonly mark?: string | null
  readonly verdict?: Verdict | null
}

export interface TableSpec {
  readonly id: string
  readonly caption: string
  /** A title that starts with `#` heads a column of figures, one that starts with `>` a column of sentences. */
  readonly columns: readonly string[]
  readonly rows: readonly (readonly CellText[])[]
  readonly plainHeads?: boolean
  readonly whenEmpty?: string
  readonly notes?: readonly string[]
}

const SHORT = 9

/** So many columns without sentences stand side by side on a phone. */
const FEW_COLUMNS = 3

/** Throws RangeError when a row has more or fewer cells than there are columns. */
export function table(spec: TableSpec): Table {
  const columns = spec.columns.map((title) => ({
    title: title.replace(/^[#>]/, ''),
    numeric: title.startsWith('#'),
    wide: title.startsWith('>'),
  }))
  const rows = spec.rows.map((row, index) => {
    if (row.length !== columns.length) {
      throw new RangeError(
        `row ${index + 1} of "${spec.caption}" has ${row.length} cells for ${columns.length} columns`,
      )
    }
    return { cells: columns.map((column, place) => cell(row[place] ?? '', place === 0, column)) }
  })
  return {
    id: spec.id,
    caption: spec.caption,
    columns,
    rows,
    hasRows: rows.length > 0,
    plainHeads: spec.plainHeads ?? false,
    short: rows.length <= SHORT,
    broad: columns.length > FEW_COLUMNS || columns.some((column) => column.wide),
    whenEmpty: spec.whenEmpty ?? 'Nothing to show.',
    notes: (spec.notes ?? []).map(keepTogether),
  }
}

function cell(content: CellText, heading: boolean, { title, numeric, wide }: Column): Cell {
  const given: Exclude<CellText, string> = typeof content === 'string' ? { text: content } : content
  const single = given.note === undefined || given.note === null ? [] : [given.note]
  const notes = given.notes ?? single
  return {
    text: keepTogether(given.text),
    title,
    numeric,
    classes: [
      ...(numeric ? ['number'] : []),
      ...(wide ? ['wide'] : []),
      ...(given.text === ABSENT && notes.length === 0 ? ['absent'] : []),
    ].join(' '),
    heading,
    notes: notes.map(keepTogether),
    href: given.href ?? null,
    mark: given.mark ?? null,
    verdict: given.verdict ?? null,
  }
}

/** Rows that say the same but for one thing are put together; the order of first appearance stays. */
export function groupBy<T>(items: readonly T[], keyOf: (item: T) => string): (readonly [T, ...T[]])[] {
  const groups = new Map<string, [T, ...T[]]>()
  for (const item of items) {
    const group = groups.get(keyOf(item))
    if (group === undefined) groups.set(keyOf(item), [item])
    else group.push(item)
  }
  return [...groups.values()]
}

/** For `sort`: by the first rank, where that is the same by the second, and so on. */
export function byRanks<T>(ranksOf: (item: T) => readonly number[]): (a: T, b: T) => number {
  return (a, b) => {
    const others = ranksOf(b)
    return ranksOf(a).reduce((found, rank, index) => (found === 0 ? rank - (others[index] ?? 0) : found), 0)
  }
}
