import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { z } from 'zod'

/** One SI unit over the unit of a table, from the definition of the inch (exactly 25.4 mm) and the prefixes. */
const METRES: Readonly<Record<string, number>> = { mm: 1e-3, um: 1e-6, mil: 25.4e-6, '1': 1 }

const Column = z.strictObject({
  name: z.string().regex(/^[a-z][A-Za-z]*$/),
  unit: z.enum(['mm', 'um', 'mil', '1']),
  /** Absolute, in the unit of the column; absent for what the source was asked. */
  tolerance: z.number().min(0).optional(),
})

const Table = z.strictObject({
  name: z.string().min(4),
  columns: z.array(Column).min(2),
  rows: z.array(z.tuple([z.string()], z.number().nullable())).min(1),
})

const Tables = z.strictObject({
  title: z.string().min(10),
  conditions: z.string().min(10),
  sources: z.record(z.string(), z.string().min(10)),
  tables: z.array(Table).min(1),
})

export interface PublishedRow {
  /** Citation of the source. */
  readonly source: string
  /** Value in SI. Throws where the table has no such column or the source no such value. */
  get(column: string): number
  has(column: string): boolean
  /** Stated uncertainty in SI, widened by what rounding a decimal number to binary can do. */
  tolerance(column: string): number
}

/** Tables of a file of reference/published by name; every row names a source of the file. */
export function publishedTables(file: string): ReadonlyMap<string, readonly PublishedRow[]> {
  const path = join(import.meta.dirname, '../../reference/published', file)
  const { sources, tables } = Tables.parse(JSON.parse(readFileSync(path, 'utf8')))
  return new Map(tables.map((table) => [table.name, table.rows.map((row) => published(table, row, sources))]))
}

export function rowsOf(
  tables: ReadonlyMap<string, readonly PublishedRow[]>,
  name: string,
): readonly PublishedRow[] {
  const rows = tables.get(name)
  if (rows === undefined) throw new RangeError(`no published table ${name}`)
  return rows
}

function published(
  table: z.infer<typeof Table>,
  [key, ...values]: readonly [string, ...(number | null)[]],
  sources: Readonly<Record<string, string>>,
): PublishedRow {
  const source = sources[key]
  if (source === undefined) throw new RangeError(`table ${table.name} names no source ${key}`)
  if (values.length !== table.columns.length)
    throw new RangeError(`table ${table.name} has a row of wrong length`)
  const column = (name: string): { scale: number; value: number | null; tolerance: number } => {
    const index = table.columns.findIndex((each) => each.name === name)
    const found = table.columns[index]
    if (found === undefined) throw new RangeError(`table ${table.name} has no column ${name}`)
    return {
      scale: METRES[found.unit] ?? NaN,
      value: values[index] ?? null,
      tolerance: found.tolerance ?? NaN,
    }
  }
  return {
    source,
    has: (name) => column(name).value !== null,
    get: (name) => {
      const { scale, value } = column(name)
      if (value === null) throw new RangeError(`${source} gives no ${name}`)
      return value * scale
    },
    tolerance: (name) => {
      const { scale, tolerance } = column(name)
      return tolerance * scale + 1e-12
    },
  }
}
