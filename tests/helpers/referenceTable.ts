import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { z } from 'zod'

const Column = z.strictObject({
  name: z.string().regex(/^[a-z][A-Za-z]*$/),
  unit: z.enum(['um', 'ohm', '1', 'dB/m']),
  /** Of what the source gives; absent for what it was asked. */
  relativeTolerance: z.number().positive().max(0.1).optional(),
})

const Table = z
  .strictObject({
    name: z.string().regex(/^[a-z][a-z-]*$/),
    title: z.string().min(10),
    columns: z.array(Column).min(2),
    rows: z.array(z.array(z.number().positive())).min(1),
  })
  .superRefine(({ columns, rows }, context) => {
    rows.forEach((row, index) => {
      if (row.length !== columns.length)
        context.addIssue(`row ${index} has ${row.length} of ${columns.length} values`)
    })
    if (new Set(columns.map((column) => column.name)).size !== columns.length)
      context.addIssue('a column stands twice')
    if (columns.every((column) => column.relativeTolerance === undefined))
      context.addIssue('nothing has a tolerance')
  })

/** Shape of a file of reference tables: whence, under what conditions, and every column with its unit. */
export const ReferenceTables = z
  .strictObject({
    title: z.string().min(10),
    source: z.strictObject({ citation: z.string().min(10), retrieved: z.iso.date() }),
    conditions: z.string().min(10),
    tables: z.array(Table).min(1),
  })
  .superRefine(({ tables }, context) => {
    if (new Set(tables.map((table) => table.name)).size !== tables.length)
      context.addIssue('a table stands twice')
  })

export type ReferenceTable = z.infer<typeof Table>

/** One row as a record by column name, in SI. */
export type ReferenceRow = Readonly<Record<string, number>>

const UNITS_IN_SI = { um: 1e6, ohm: 1, '1': 1, 'dB/m': 20 / Math.LN10 } as const

/** Reads a file of reference/published, checks its shape and gives its tables by name. */
export function readReferenceTables(file: string): ReadonlyMap<string, ReferenceTable> {
  const path = join(import.meta.dirname, '../../reference/published', file)
  const { tables } = ReferenceTables.parse(JSON.parse(readFileSync(path, 'utf8')))
  return new Map(tables.map((table) => [table.name, table]))
}

/** The rows of a table in SI. Throws when there is no such table, so that a misspelt name cannot pass a test. */
export function rowsOf(tables: ReadonlyMap<string, ReferenceTable>, name: string): ReferenceRow[] {
  const table = tables.get(name)
  if (table === undefined) throw new RangeError(`no reference table ${name}`)
  return table.rows.map((row) =>
    Object.fromEntries(
      table.columns.map(({ name: column, unit }, index) => [column, (row[index] ?? NaN) / UNITS_IN_SI[unit]]),
    ),
  )
}
