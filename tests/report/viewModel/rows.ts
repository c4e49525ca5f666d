import type { Section } from '../../../src/report/viewModel/section.ts'
import type { Table } from '../../../src/report/viewModel/table.ts'

export function tableOf(section: Section, id: string): Table {
  const table = section.tables.find((each) => each.id === id)
  if (table === undefined) throw new Error(`no table ${id}`)
  return table
}

/** Each row as one text, marks, verdicts and notes included. */
export function rows(table: Table): string[] {
  return table.rows.map((row) =>
    row.cells
      .map((cell) => [cell.text, cell.mark, cell.verdict?.text, ...cell.notes].filter(Boolean).join(' / '))
      .join(' | ')
      .replaceAll('\u00a0', ' ')
      .replaceAll('\u200b', ''),
  )
}
