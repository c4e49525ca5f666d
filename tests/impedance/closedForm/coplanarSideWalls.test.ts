import { describe, expect, it } from 'vitest'
import { coplanarGhioneNaldi } from '../../../src/impedance/closedForm/coplanarGhioneNaldi.ts'
import { coplanarSideWalls, LIMITS } from '../../../src/impedance/closedForm/coplanarSideWalls.ts'
import { microstripHammerstadJensen } from '../../../src/impedance/closedForm/microstripHammerstadJensen.ts'
import { missedRows, within } from '../../helpers/compareTable.ts'
import { microstrip, tenfold } from '../../helpers/lineShapes.ts'
import { readReferenceTables, rowsOf } from '../../helpers/referenceTable.ts'

const coplanar = (
  w: number,
  gap: number,
  h: number,
  t: number,
  er: number,
): Parameters<typeof coplanarSideWalls>[0] => ({ ...microstrip(w, h, t, er), gap: gap * 1e-6 })

describe('coplanarSideWalls', () => {
  // Independent implementation of the same equations.
  it('has the check values', () => {
    const rows = [
      [coplanar(100, 100, 100, 35, 4), 59.2567496977, 2.47302338098],
      [coplanar(200, 75, 250, 18, 3.5), 60.6230081941, 2.18301556183],
      [coplanar(100, 250, 60, 0, 4), 56.1551744428, 3.04825862998],
    ] as const
    expect(
      missedRows(
        rows.flatMap(([line, impedance, permittivity]) => {
          const got = coplanarSideWalls(line)
          return [
            within(1e-9, 'impedance', got.impedance, impedance),
            within(1e-9, 'permittivity', got.effectivePermittivity, permittivity),
          ]
        }),
      ),
    ).toBe('')
  })

  it('agrees with a boundary-element solution: impedance 2.7 %, permittivity 5.2 %', () => {
    const rows = rowsOf(readReferenceTables('lineReferenceValues.json'), 'coplanar').flatMap((row) => {
      const { width = NaN, gap = NaN, height = NaN, thickness = NaN, permittivity = NaN } = row
      const got = coplanarSideWalls({ width, gap, height, thickness, relativePermittivity: permittivity })
      return [
        within(0.027, `impedance at gap ${gap}`, got.impedance, row['impedance'] ?? NaN),
        within(
          0.052,
          `permittivity at gap ${gap}`,
          got.effectivePermittivity,
          row['effectivePermittivity'] ?? NaN,
        ),
      ]
    })
    expect(missedRows(rows)).toBe('')
  })

  it('tends to the thin coplanar line for narrow gaps, and to microstrip for wide ones', () => {
    const narrow = coplanar(100, 20, 400, 0, 4)
    expect(coplanarSideWalls(narrow).impedance).toBeCloseTo(coplanarGhioneNaldi(narrow).impedance, 6)
    const wide = coplanar(100, 5000, 50, 18, 4)
    expect(coplanarSideWalls(wide).impedance / microstripHammerstadJensen(wide).impedance).toBeCloseTo(1, 1)
  })

  it('knows no scale, refuses a missing gap, and has a box', () => {
    const line = coplanar(100, 80, 120, 20, 4)
    expect(coplanarSideWalls(tenfold(line)).impedance).toBeCloseTo(coplanarSideWalls(line).impedance, 11)
    expect(() => coplanarSideWalls({ ...line, gap: -1 })).toThrow(RangeError)
    expect(LIMITS.map(({ quantity }) => quantity)).toContain('gap/height')
  })
})
