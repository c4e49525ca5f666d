import { describe, expect, it } from 'vitest'
import { smoothMaximum } from '../../../src/impedance/closedForm/smoothMaximum.ts'

describe('smoothMaximum', () => {
  it('is the larger one when they are far apart, whatever the order', () => {
    expect(smoothMaximum(1, 3)).toBeCloseTo(3, 11)
    expect(smoothMaximum(3, 1)).toBe(smoothMaximum(1, 3))
  })

  // 2^(1/28) = 1.025064…; (1 + 1.14^(−28))^(1/28) = 1.0009.
  it('is 2.5 % above both where they are equal, and 0.1 % above once they differ by 14 %', () => {
    expect(smoothMaximum(2, 2)).toBeCloseTo(2 * 2 ** (1 / 28), 12)
    expect(smoothMaximum(1, 1.14) / 1.14 - 1).toBeLessThan(0.001)
  })

  it('does not overflow', () => {
    expect(smoothMaximum(1e200, 1e-200)).toBe(1e200)
  })

  it('refuses what is not positive', () => {
    expect(() => smoothMaximum(0, 1)).toThrow(RangeError)
    expect(() => smoothMaximum(1, NaN)).toThrow(RangeError)
  })
})
