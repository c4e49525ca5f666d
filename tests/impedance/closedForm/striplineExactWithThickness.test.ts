import { describe, expect, it } from 'vitest'
import { striplineExact } from '../../../src/impedance/closedForm/striplineExact.ts'
import { striplineExactWithThickness } from '../../../src/impedance/closedForm/striplineExactWithThickness.ts'
import { striplineWheeler } from '../../../src/impedance/closedForm/striplineWheeler.ts'
import { missedRows, within } from '../../helpers/compareTable.ts'
import { centred, tenfold } from '../../helpers/lineShapes.ts'
import { readReferenceTables, rowsOf } from '../../helpers/referenceTable.ts'

describe('striplineExactWithThickness', () => {
  it('is exact without thickness', () => {
    const line = centred(100, 235, 0, 4)
    expect(striplineExactWithThickness(line)).toBeCloseTo(striplineExact(line), 12)
  })

  it('carries the thickness effect of Wheeler and nothing else', () => {
    const line = centred(100, 235, 35, 4)
    const thin = { ...line, thickness: 0 }
    expect(striplineExactWithThickness(line) / striplineExact(line)).toBeCloseTo(
      striplineWheeler(line) / striplineWheeler(thin),
      12,
    )
  })

  it('agrees with a boundary-element solution as closely as its binding claims', () => {
    const rows = rowsOf(readReferenceTables('lineReferenceValues.json'), 'stripline')
      .filter((row) => row['below'] === row['above'])
      .map(
        ({ width = NaN, thickness = NaN, below = NaN, above = NaN, permittivity = NaN, impedance = NaN }) => {
          const spacing = below + thickness + above
          const line = { width, thickness, spacing, relativePermittivity: permittivity }
          return within(0.0077, `w ${width}, b ${spacing}`, striplineExactWithThickness(line), impedance)
        },
      )
    expect(rows).toHaveLength(2)
    expect(missedRows(rows)).toBe('')
  })

  it('knows no scale, and refuses copper as thick as the spacing', () => {
    const line = centred(100, 235, 35, 4)
    expect(striplineExactWithThickness(tenfold(line))).toBeCloseTo(striplineExactWithThickness(line), 11)
    expect(() => striplineExactWithThickness(centred(100, 35, 35, 4))).toThrow(RangeError)
  })
})
