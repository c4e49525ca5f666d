import { describe, expect, it } from 'vitest'
import { readReferenceTables, ReferenceTables, rowsOf } from './referenceTable.ts'

const good = {
  title: 'A table for this test',
  source: { citation: 'nobody, nothing, 2026', retrieved: '2026-11-25' },
  conditions: 'none to speak of',
  tables: [
    {
      name: 'lengths',
      title: 'Lengths and impedances',
      columns: [
        { name: 'width', unit: 'um' },
        { name: 'impedance', unit: 'ohm', relativeTolerance: 0.01 },
      ],
      rows: [[100, 50]],
    },
  ],
}
const table = (change: object): unknown => ({ ...good, tables: [{ ...good.tables[0], ...change }] })

describe('the shape of reference tables', () => {
  it('is accepted as it should be', () => {
    expect(ReferenceTables.safeParse(good).success).toBe(true)
  })

  it.each([
    ['a row too short', table({ rows: [[100]] })],
    ['a value that is not a number', table({ rows: [[100, 'fifty']] })],
    ['no rows', table({ rows: [] })],
    ['an unknown unit', table({ columns: [{ name: 'width', unit: 'furlong' }, good.tables[0]?.columns[1]] })],
    [
      'no tolerance anywhere',
      table({
        columns: [
          { name: 'a', unit: '1' },
          { name: 'b', unit: '1' },
        ],
      }),
    ],
    ['a column twice', table({ columns: [good.tables[0]?.columns[1], good.tables[0]?.columns[1]] })],
    ['a table twice', { ...good, tables: [good.tables[0], good.tables[0]] }],
    ['no source', { ...good, source: undefined }],
    ['an extra key', { ...good, note: 'stray' }],
  ])('refuses %s', (_what, file) => {
    expect(ReferenceTables.safeParse(file).success).toBe(false)
  })
})

describe('rowsOf', () => {
  it('gives rows by column name, in SI', () => {
    const tables = new Map(ReferenceTables.parse(good).tables.map((entry) => [entry.name, entry]))
    expect(rowsOf(tables, 'lengths')).toEqual([{ width: 100e-6, impedance: 50 }])
  })

  it('refuses a name that no table has', () => {
    expect(() => rowsOf(new Map(), 'lenghts')).toThrow(RangeError)
  })
})

describe('the published line values', () => {
  it('have the shape of reference tables and cover single lines and pairs', () => {
    const names = [...readReferenceTables('lineReferenceValues.json').keys()]
    expect(names).toEqual([
      'surface',
      'coated',
      'embedded',
      'stripline',
      'stripline-two-dielectrics',
      'coplanar',
      'trapezoid',
      'edge-coupled-surface',
      'edge-coupled-coated',
      'edge-coupled-stripline',
      'broadside-stripline',
      'wires-in-shield',
    ])
  })
})
