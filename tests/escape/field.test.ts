import { describe, expect, it } from 'vitest'
import { fieldOf, ringOf } from '../../src/escape/field.ts'
import { missedRows } from '../helpers/compareTable.ts'
import { packageOf, square, um } from './fixtures.ts'
import { publishedTables, rowsOf } from './publishedTable.ts'

const tables = publishedTables('channelFits.json')

describe('fieldOf', () => {
  it('puts dog-bone vias as far from the land as UG1099 prints', () => {
    const rows = rowsOf(tables, 'land to dog-bone via').flatMap((row) => {
      const pitch = row.get('pitch')
      const { lands, vias } = fieldOf(packageOf(square(5), { pitch: { x: pitch, y: pitch } }))
      return lands.map((land, ball) => ({
        label: row.source,
        actual: Math.hypot(land.x - (vias[ball]?.x ?? NaN), land.y - (vias[ball]?.y ?? NaN)),
        expected: row.get('distance'),
        tolerance: row.tolerance('distance'),
      }))
    })
    expect(missedRows(rows)).toBe('')
  })

  it.each([1, 2, 5, 6])('never puts two vias of a %d × %d array nearer than the pitch', (size) => {
    const { vias } = fieldOf(packageOf(square(size)))
    for (const [index, one] of vias.entries()) {
      for (const other of vias.slice(index + 1)) {
        expect(Math.hypot(one.x - other.x, one.y - other.y)).toBeGreaterThan(um(799.999))
      }
    }
  })

  it('puts a via in the pad at the land', () => {
    const { lands, vias } = fieldOf(packageOf(square(3), { viaPlacement: 'in pad' }))
    expect(vias).toEqual(lands)
  })

  it('spreads vias to a stated via pitch about the same centre', () => {
    const pitch = { x: um(500), y: um(500) }
    const { vias } = fieldOf(packageOf(square(4), { pitch, viaPitch: { x: um(600), y: um(700) } }))
    // Ball 0,0 and its neighbours along the row and the column; signs by the middle lines.
    expect((vias[1]?.x ?? NaN) - (vias[0]?.x ?? NaN)).toBeCloseTo(um(600), 12)
    expect((vias[0]?.y ?? NaN) - (vias[4]?.y ?? NaN)).toBeCloseTo(um(700), 12)
    expect(vias.reduce((sum, { x }) => sum + x, 0)).toBeCloseTo(0, 12)
  })

  it('sees balls off the grid, and two in one place', () => {
    const pack = packageOf(square(3))
    const moved = pack.balls.map((ball, index) => (index === 4 ? { ...ball, x: ball.x + um(50) } : ball))
    const doubled = pack.balls.map((ball, index) => (index === 4 ? { ...ball, row: 0, column: 0 } : ball))
    expect(fieldOf(pack).aligned).toBe(true)
    expect(fieldOf({ ...pack, balls: moved }).aligned).toBe(false)
    expect(fieldOf({ ...pack, balls: doubled }).aligned).toBe(false)
  })
})

describe('ringOf', () => {
  it('counts from 1 at the edge to the middle, on squares and on oblongs', () => {
    const rings = (rows: number, columns: number): number[][] =>
      Array.from({ length: rows }, (_, row) =>
        Array.from({ length: columns }, (_unused, column) => ringOf(row, column, rows, columns)),
      )
    expect(rings(3, 3)).toEqual([
      [1, 1, 1],
      [1, 2, 1],
      [1, 1, 1],
    ])
    expect(rings(4, 6)[1]).toEqual([1, 2, 2, 2, 2, 1])
    expect(rings(1, 4)).toEqual([[1, 1, 1, 1]])
  })
})
