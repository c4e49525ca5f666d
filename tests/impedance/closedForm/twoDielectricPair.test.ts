import { describe, expect, it } from 'vitest'
import { offsetPairThick } from '../../../src/impedance/closedForm/offsetPairThick.ts'
import { twoDielectricPair } from '../../../src/impedance/closedForm/twoDielectricPair.ts'
import { missedRows } from '../../helpers/compareTable.ts'
import { checkValues, fourConstants, offsetPair } from '../../helpers/pairShapes.ts'

describe('twoDielectricPair', () => {
  it('has the values of a second implementation in another language', () => {
    const rows = [
      ...checkValues(
        '3.4 and 3.9',
        fourConstants(
          twoDielectricPair({
            ...offsetPair(100, 100, 18, 100, 200, 1),
            permittivityBelow: 3.4,
            permittivityAbove: 3.9,
          }),
        ),
        [62.0484794263, 45.2054225191, 3.61523773879, 3.65599875659],
      ),
      ...checkValues(
        '4.5 and 3',
        fourConstants(
          twoDielectricPair({
            ...offsetPair(75, 120, 35, 200, 60, 1),
            permittivityBelow: 4.5,
            permittivityAbove: 3,
          }),
        ),
        [52.8913096124, 41.8848520253, 3.43014943761, 3.50737301359],
      ),
    ]
    expect(missedRows(rows)).toBe('')
  })

  it('is the pair in one dielectric when both are alike', () => {
    const pair = offsetPair(100, 100, 18, 80, 200, 4)
    const { even, odd } = twoDielectricPair({ ...pair, permittivityBelow: 4, permittivityAbove: 4 })
    const alike = offsetPairThick(pair)
    expect(even.effectivePermittivity).toBeCloseTo(4, 12)
    expect(even.impedance).toBeCloseTo(alike.even, 10)
    expect(odd.impedance).toBeCloseTo(alike.odd, 10)
  })

  it('gives the odd mode more of the upper dielectric, where the side walls stand', () => {
    const pair = { ...offsetPair(100, 80, 35, 100, 100, 1), permittivityBelow: 3, permittivityAbove: 4 }
    const { even, odd } = twoDielectricPair(pair)
    expect(even.effectivePermittivity).toBeGreaterThan(3.5)
    expect(odd.effectivePermittivity).toBeGreaterThan(even.effectivePermittivity)
    expect(odd.effectivePermittivity).toBeLessThan(4)
  })

  it('refuses dielectrics of less than vacuum', () => {
    const pair = { ...offsetPair(100, 80, 35, 100, 100, 1), permittivityBelow: 0.9, permittivityAbove: 4 }
    expect(() => twoDielectricPair(pair)).toThrow(RangeError)
  })
})
