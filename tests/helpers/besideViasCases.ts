import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { z } from 'zod'

const Metres = z
  .number()
  .nonnegative()
  .transform((micrometres) => micrometres * 1e-6)
const Sheet = z.tuple([Metres, z.number().min(1)])

/** A cut of the table in metres, and what finite elements found for it in SI. */
const BesideViasCase = z.strictObject({
  name: z.string().min(3),
  kind: z.enum(['solid', 'symmetric', 'one side', 'off-centre']),
  line: z.string().min(3),
  arrangement: z.enum(['single', 'edge pair']),
  width: Metres,
  topWidth: Metres,
  thickness: Metres,
  gap: Metres.nullable(),
  sheetBelow: Sheet,
  sheetAbove: Sheet.nullable(),
  planeThickness: Metres,
  behind: Metres,
  left: Metres.nullable(),
  right: Metres.nullable(),
  opening: Metres,
  barrel: Metres,
  pad: Metres,
  capacitance: z.number().positive(),
  inductance: z.number().positive(),
  impedance: z.number().positive(),
  relativeBound: z.number().positive().max(0.0002),
})

export type BesideViasCase = z.infer<typeof BesideViasCase>

const Document = z.object({
  tables: z.tuple([
    z.object({
      columns: z.array(z.object({ name: z.string() })),
      rows: z.array(z.array(z.unknown())),
    }),
  ]),
})

/** Reads reference/field/besideVias.json; throws where a row is not what its columns say. */
export function readBesideVias(): BesideViasCase[] {
  const path = join(import.meta.dirname, '../../reference/field/besideVias.json')
  const [{ columns, rows }] = Document.parse(JSON.parse(readFileSync(path, 'utf8'))).tables
  return rows.map((row) =>
    BesideViasCase.parse(Object.fromEntries(columns.map(({ name }, index) => [name, row[index]]))),
  )
}
