import { describe, expect, it } from 'vitest'
import { offsetEquivalentSpacing } from '../../../src/impedance/closedForm/offsetEquivalentSpacing.ts'
import {
  LIMITS,
  twoDielectricCapacitanceWeighted,
} from '../../../src/impedance/closedForm/twoDielectricCapacitanceWeighted.ts'
import { missedRows, within } from '../../helpers/compareTable.ts'
import { offset } from '../../helpers/lineShapes.ts'

const line = { ...offset(100, 18, 100, 200, 1), permittivityBelow: 3.4, permittivityAbove: 3.9 }

describe('twoDielectricCapacitanceWeighted', () => {
  // Independent implementation of the same equations.
  it('has the check values', () => {
    const { impedance, effectivePermittivity } = twoDielectricCapacitanceWeighted(line)
    expect(
      missedRows([
        within(1e-9, 'impedance', impedance, 54.2580830806),
        within(1e-9, 'permittivity', effectivePermittivity, 3.60686227807),
      ]),
    ).toBe('')
  })

  it('is the line in one dielectric when both are the same', () => {
    const same = twoDielectricCapacitanceWeighted({ ...line, permittivityBelow: 4, permittivityAbove: 4 })
    expect(same.effectivePermittivity).toBeCloseTo(4, 12)
    expect(same.impedance).toBeCloseTo(offsetEquivalentSpacing(offset(100, 18, 100, 200, 4)), 11)
  })

  it('gives a thin strip midway the mean of both', () => {
    const thin = { ...offset(100, 0, 100, 100, 1), permittivityBelow: 3, permittivityAbove: 5 }
    expect(twoDielectricCapacitanceWeighted(thin).effectivePermittivity).toBeCloseTo(4, 12)
  })

  it('refuses a permittivity below 1, and states the contrast it was checked for', () => {
    expect(() => twoDielectricCapacitanceWeighted({ ...line, permittivityAbove: 0.9 })).toThrow(RangeError)
    expect(LIMITS).toEqual([{ quantity: 'permittivity contrast', min: 1, max: 1.5 }])
  })
})
