import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { z } from 'zod'
import type { CrossSection } from '../../src/section/crossSection.ts'
import { lineSection, type Sheet, sheetOf } from './lineSection.ts'

const METRES = 1e-6
const Metres = z
  .int()
  .positive()
  .transform((micrometres) => micrometres * METRES)
const Sheets = z.array(z.tuple([Metres, z.number().min(1)]))
const Positive = z.number().positive()
const Matrix = z.array(z.array(z.number()))

/** A cross-section of the table in metres, and what finite elements found for it in SI. */
const FiniteElementCase = z.strictObject({
  name: z.string().min(3),
  kind: z.enum([
    'surface',
    'coated',
    'buried',
    'stripline',
    'layered',
    'broadside',
    'coplanar',
    'three conductors',
    'perforated plane',
    'barrels',
  ]),
  arrangement: z.enum(['single', 'edge pair', 'broadside pair', 'three traces']),
  width: Metres,
  topWidth: Metres,
  thickness: Metres,
  foot: z.enum(['below', 'above']),
  gap: Metres.nullable(),
  coplanarGap: Metres.nullable(),
  sheetsBelow: Sheets,
  sheetsBetween: Sheets.nullable(),
  sheetsAbove: Sheets,
  planeAbove: z.boolean(),
  maskOverLaminate: Metres.nullable(),
  maskOverTrace: Metres.nullable(),
  maskPermittivity: z.number().min(1).nullable(),
  traces: z.strictObject({ widths: z.array(Metres), gaps: z.array(Metres) }).nullable(),
  openings: z
    .strictObject({
      webWidth: Metres,
      openingWidth: Metres,
      planeThickness: Metres,
      openingPermittivity: z.number().min(1),
      sheetsBeyondBelow: Sheets,
      sheetsBeyondAbove: Sheets.nullable(),
    })
    .nullable(),
  barrels: z.strictObject({ distance: Metres, width: Metres.nullable() }).nullable(),
  singleCapacitance: Positive.nullable(),
  singleCapacitanceInAir: Positive.nullable(),
  singleImpedance: Positive.nullable(),
  singleEffectivePermittivity: Positive.nullable(),
  evenCapacitance: Positive.nullable(),
  evenCapacitanceInAir: Positive.nullable(),
  evenImpedance: Positive.nullable(),
  evenEffectivePermittivity: Positive.nullable(),
  oddCapacitance: Positive.nullable(),
  oddCapacitanceInAir: Positive.nullable(),
  oddImpedance: Positive.nullable(),
  oddEffectivePermittivity: Positive.nullable(),
  maxwellCapacitances: Matrix.nullable(),
  maxwellCapacitancesInAir: Matrix.nullable(),
  relativeBound: z.number().positive().max(0.001),
})

export type FiniteElementCase = z.infer<typeof FiniteElementCase>

const Document = z.object({
  tables: z.array(
    z.object({
      name: z.string(),
      columns: z.array(z.object({ name: z.string() })),
      rows: z.array(z.array(z.unknown())),
    }),
  ),
})

const Check = z.strictObject({
  what: z.string().min(10),
  exact: Positive,
  upperBound: Positive,
  lowerBound: Positive,
})

/** A case with an exact solution, and the bounds that the same program found for it. */
export type FiniteElementCheck = z.infer<typeof Check>

/** Reads reference/field/finiteElements.json; throws where a row is not what its columns say. */
export function readFiniteElements(): {
  readonly cases: readonly FiniteElementCase[]
  readonly checks: readonly FiniteElementCheck[]
} {
  const path = join(import.meta.dirname, '../../reference/field/finiteElements.json')
  const { tables } = Document.parse(JSON.parse(readFileSync(path, 'utf8')))
  const records = (name: string): Record<string, unknown>[] => {
    const table = tables.find((candidate) => candidate.name === name)
    if (table === undefined) throw new RangeError(`no reference table ${name}`)
    return table.rows.map((row) =>
      Object.fromEntries(table.columns.map((column, index) => [column.name, row[index]])),
    )
  }
  return {
    cases: records('lines').map((record) => FiniteElementCase.parse(record)),
    checks: records('checks').map((record) => Check.parse(record)),
  }
}

/** The case as a cross-section; null when one cannot say it: three traces, perforated planes, barrels. */
export function sectionOfCase(row: FiniteElementCase): CrossSection | null {
  const { width, topWidth, thickness, foot, arrangement, sheetsBetween } = row
  if (arrangement === 'three traces' || row.openings !== null || row.barrels !== null) return null
  const section = lineSection({
    width,
    topWidth,
    thickness,
    foot,
    below: row.sheetsBelow,
    above: row.sheetsAbove,
    twoPlanes: row.planeAbove,
  })
  return {
    ...section,
    arrangement,
    gap: row.gap,
    coplanarGap: row.coplanarGap,
    broadside: sheetsBetween === null ? null : { layer: 2, sheets: sheetsBetween.map(sheetOf) },
    mask: maskOf(row),
  }
}

function maskOf(row: FiniteElementCase): CrossSection['mask'] {
  const { maskOverLaminate, maskOverTrace, maskPermittivity } = row
  if (maskOverLaminate === null || maskOverTrace === null || maskPermittivity === null) return null
  const sheet: Sheet = [maskOverLaminate, maskPermittivity]
  const { permittivity } = sheetOf(sheet, 0)
  return { overLaminate: maskOverLaminate, overTrace: maskOverTrace, permittivity }
}
