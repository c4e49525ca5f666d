import { describe, expect, it } from 'vitest'
import { striplineExactWithThickness } from '../../../src/impedance/closedForm/striplineExactWithThickness.ts'
import { striplinePairExact } from '../../../src/impedance/closedForm/striplinePairExact.ts'
import {
  LIMITS,
  sideWalls,
  striplinePairThick,
} from '../../../src/impedance/closedForm/striplinePairThick.ts'
import { missedRows, within } from '../../helpers/compareTable.ts'
import { tenfold } from '../../helpers/lineShapes.ts'
import { centredPair, checkValues } from '../../helpers/pairShapes.ts'
import { readReferenceTables, rowsOf } from '../../helpers/referenceTable.ts'

describe('striplinePairThick', () => {
  it('has the values of a second implementation in another language', () => {
    const first = striplinePairThick(centredPair(100, 100, 235, 35, 1))
    const second = striplinePairThick(centredPair(75, 150, 418, 18, 1))
    const rows = [
      ...checkValues('100', [first.even, first.odd], [92.6578772679, 71.9967090659]),
      ...checkValues('75', [second.even, second.odd], [162.013843796, 115.031733956]),
    ]
    expect(missedRows(rows)).toBe('')
  })

  it('agrees with a boundary-element solution as closely as it claims', () => {
    const rows = rowsOf(readReferenceTables('lineReferenceValues.json'), 'edge-coupled-stripline')
      .filter((row) => row['below'] === row['above'])
      .flatMap((row) => {
        const { width = NaN, gap = NaN, thickness = NaN, below = NaN, permittivity = NaN } = row
        const spacing = 2 * below + thickness
        const modes = striplinePairThick({
          width,
          gap,
          spacing,
          thickness,
          relativePermittivity: permittivity,
        })
        return [
          within(0.013, `even ${width}`, modes.even, row['evenImpedance'] ?? NaN),
          within(0.016, `odd ${width}`, modes.odd, row['oddImpedance'] ?? NaN),
        ]
      })
    expect(rows.length).toBeGreaterThan(2)
    expect(missedRows(rows)).toBe('')
  })

  it('is exactly the thin pair without thickness, and joins it without a step', () => {
    const thin = centredPair(100, 80, 250, 0, 4)
    expect(striplinePairThick(thin)).toEqual(striplinePairExact(thin))
    const hardly = striplinePairThick({ ...thin, thickness: 1e-15 })
    expect(hardly.even).toBeCloseTo(striplinePairExact(thin).even, 6)
    expect(hardly.odd).toBeCloseTo(striplinePairExact(thin).odd, 6)
  })

  it('is exactly the thick single strip when far apart', () => {
    const pair = centredPair(100, 5000, 250, 35, 4)
    const single = striplineExactWithThickness(pair)
    expect(striplinePairThick(pair).even).toBeCloseTo(single, 9)
    expect(striplinePairThick(pair).odd).toBeCloseTo(single, 9)
  })

  it('gives close side walls the admittance of a plate to the virtual ground halfway', () => {
    const pair = centredPair(100, 1, 1e6, 35, 4)
    expect(sideWalls(pair) / ((35 / 0.5) * (2 / 376.730313668))).toBeCloseTo(1, 5)
  })

  it('falls with the root of the permittivity and knows no scale', () => {
    const pair = centredPair(100, 80, 250, 30, 1)
    const denser = striplinePairThick({ ...pair, relativePermittivity: 4 })
    expect(denser.even).toBeCloseTo(striplinePairThick(pair).even / 2, 10)
    expect(denser.odd).toBeCloseTo(striplinePairThick(pair).odd / 2, 10)
    expect(striplinePairThick(tenfold(pair)).odd).toBeCloseTo(striplinePairThick(pair).odd, 9)
  })

  it('states the box of its fit', () => {
    expect(LIMITS.map(({ quantity, min, max }) => [quantity, min, max])).toEqual([
      ['width/spacing', 0.08, 2.5],
      ['gap/spacing', 0.08, 5],
      ['thickness/gap', 0, 0.8],
      ['thickness/width', 0, 0.8],
    ])
  })

  it('refuses a pair without gap', () => {
    expect(() => striplinePairThick(centredPair(100, 0, 235, 35, 4))).toThrow(RangeError)
  })
})
