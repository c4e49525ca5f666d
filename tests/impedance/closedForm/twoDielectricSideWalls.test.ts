import { describe, expect, it } from 'vitest'
import { twoDielectricCapacitanceWeighted } from '../../../src/impedance/closedForm/twoDielectricCapacitanceWeighted.ts'
import { twoDielectricSideWalls } from '../../../src/impedance/closedForm/twoDielectricSideWalls.ts'
import { missedRows, within } from '../../helpers/compareTable.ts'
import { offset } from '../../helpers/lineShapes.ts'
import { readReferenceTables, rowsOf } from '../../helpers/referenceTable.ts'

const line = { ...offset(100, 18, 100, 200, 1), permittivityBelow: 3.4, permittivityAbove: 3.9 }

describe('twoDielectricSideWalls', () => {
  // Independent implementation of the same equations.
  it('has the check values', () => {
    const first = twoDielectricSideWalls(line)
    const second = twoDielectricSideWalls({
      ...offset(75, 35, 200, 60, 1),
      permittivityBelow: 4.5,
      permittivityAbove: 3,
    })
    expect(
      missedRows([
        within(1e-9, 'first impedance', first.impedance, 54.0894275436),
        within(1e-9, 'first permittivity', first.effectivePermittivity, 3.62939036592),
        within(1e-9, 'second impedance', second.impedance, 47.7296282583),
        within(1e-9, 'second permittivity', second.effectivePermittivity, 3.47301549203),
      ]),
    ).toBe('')
  })

  it('agrees with a boundary-element solution to the 1.4 % it was checked for', () => {
    const rows = rowsOf(readReferenceTables('lineReferenceValues.json'), 'stripline-two-dielectrics').flatMap(
      (row) => {
        const {
          width = NaN,
          thickness = NaN,
          below = NaN,
          above = NaN,
          permittivityBelow = NaN,
          permittivityAbove = NaN,
        } = row
        const got = twoDielectricSideWalls({
          width,
          thickness,
          below,
          above,
          permittivityBelow,
          permittivityAbove,
        })
        return [
          within(0.014, `impedance at ${width}`, got.impedance, row['impedance'] ?? NaN),
          within(
            0.014,
            `permittivity at ${width}`,
            got.effectivePermittivity,
            row['effectivePermittivity'] ?? NaN,
          ),
        ]
      },
    )
    expect(missedRows(rows)).toBe('')
  })

  it('is the capacitance-weighted form without thickness, where there are no side walls', () => {
    const thin = { ...line, thickness: 0 }
    expect(twoDielectricSideWalls(thin).effectivePermittivity).toBeCloseTo(
      twoDielectricCapacitanceWeighted(thin).effectivePermittivity,
      2,
    )
  })

  it('leans to the upper dielectric with thickness, where the side walls are', () => {
    const plain = twoDielectricCapacitanceWeighted(line).effectivePermittivity
    expect(twoDielectricSideWalls(line).effectivePermittivity).toBeGreaterThan(plain)
  })

  it('refuses a permittivity below 1', () => {
    expect(() => twoDielectricSideWalls({ ...line, permittivityBelow: NaN })).toThrow(RangeError)
  })
})
