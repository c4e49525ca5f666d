import { describe, expect, it } from 'vitest'
import { roughnessGroiss } from '../../../src/impedance/closedForm/roughnessGroiss.ts'
import { skinDepth } from '../../../src/impedance/closedForm/skinEffect.ts'

describe('roughnessGroiss', () => {
  it('has the check value of an independent implementation, 10 GHz', () => {
    expect(roughnessGroiss(0.5e-6, skinDepth(1.7241e-8, 10e9)) / 1.59724905522).toBeCloseTo(1, 9)
  })

  it('is 1 on smooth copper, 1 + 1/e where the depth is twice the roughness, and tends to 2', () => {
    expect(roughnessGroiss(0, 1e-6)).toBe(1)
    expect(roughnessGroiss(1e-9, 1e-6)).toBe(1)
    expect(roughnessGroiss(0.5e-6, 1e-6)).toBeCloseTo(1 + 1 / Math.E, 12)
    expect(roughnessGroiss(1, 1e-6)).toBeCloseTo(2, 6)
  })

  it('refuses negative roughness and no skin depth', () => {
    expect(() => roughnessGroiss(-1e-6, 1e-6)).toThrow(RangeError)
    expect(() => roughnessGroiss(1e-6, 0)).toThrow(RangeError)
  })
})
