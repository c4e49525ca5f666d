/** Widest line of printed text. */
export const PAGE_WIDTH = 100

export interface Column {
  readonly title: string
  /** Numbers stand right, words left; a word column may wrap to keep the page width. */
  readonly kind: 'number' | 'word'
}

const GAP = 2
const NARROWEST_WRAP = 12

/** Plain aligned columns under their titles, no wider than the page as long as word columns can give way. */
export function table(columns: readonly Column[], rows: readonly (readonly string[])[], indent = 2): string {
  const cells = [columns.map((column) => column.title), ...rows]
  const widths = fitted(
    columns,
    columns.map((_, index) => Math.max(...cells.map((row) => (row[index] ?? '').length))),
    PAGE_WIDTH - indent - GAP * (columns.length - 1),
  )
  return cells
    .flatMap((row) => lines(columns, row, widths).map((line) => `${' '.repeat(indent)}${line}\n`))
    .join('')
}

/** Takes width from the widest word column until the row fits. */
function fitted(columns: readonly Column[], natural: readonly number[], room: number): number[] {
  const widths = [...natural]
  for (;;) {
    const excess = widths.reduce((sum, width) => sum + width, 0) - room
    if (excess <= 0) return widths
    let widest = -1
    for (const [index, column] of columns.entries()) {
      const width = widths[index] ?? 0
      if (column.kind === 'word' && width > NARROWEST_WRAP && width > (widths[widest] ?? 0)) widest = index
    }
    if (widest < 0) return widths
    widths[widest] = (widths[widest] ?? 0) - 1
  }
}

function lines(columns: readonly Column[], row: readonly string[], widths: readonly number[]): string[] {
  const wrapped = row.map((cell, index) =>
    columns[index]?.kind === 'word' ? wrapWords(cell, widths[index] ?? PAGE_WIDTH) : [cell],
  )
  const height = Math.max(...wrapped.map((cell) => cell.length))
  return Array.from({ length: height }, (_, line) =>
    wrapped
      .map((cell, index) => {
        const text = cell[line] ?? ''
        const width = widths[index] ?? 0
        return columns[index]?.kind === 'number' ? text.padStart(width) : text.padEnd(width)
      })
      .join(' '.repeat(GAP))
      .trimEnd(),
  )
}

/** Breaks text between words, and inside a word only where it alone is too long. */
function wrapWords(text: string, width: number): string[] {
  const found: string[] = []
  let line = ''
  for (const word of text.split(' ').flatMap((part) => cut(part, width))) {
    if (line !== '' && line.length + 1 + word.length > width) {
      found.push(line)
      line = word
    } else {
      line = line === '' ? word : `${line} ${word}`
    }
  }
  return [...found, line]
}

function cut(word: string, width: number): string[] {
  if (word.length <= width) return [word]
  return [word.slice(0, width), ...cut(word.slice(width), width)]
}

/** A paragraph inside the page, later lines indented by `hang` more. */
export function paragraph(text: string, indent = 0, hang = 0): string {
  const [first = '', ...rest] = wrapWords(text, PAGE_WIDTH - indent - hang)
  const line = (part: string, extra: number): string => `${' '.repeat(indent + extra)}${part}\n`
  return line(first, 0) + rest.map((part) => line(part, hang)).join('')
}

/** Names and values in two columns without titles. */
export function pairs(rows: readonly (readonly [string, string])[], indent = 2): string {
  const width = Math.max(...rows.map(([name]) => name.length)) + GAP
  return rows
    .flatMap(([name, value]) =>
      wrapWords(value, PAGE_WIDTH - indent - width).map((part, index) =>
        `${' '.repeat(indent)}${(index === 0 ? name : '').padEnd(width)}${part}`.trimEnd(),
      ),
    )
    .map((line) => `${line}\n`)
    .join('')
}
