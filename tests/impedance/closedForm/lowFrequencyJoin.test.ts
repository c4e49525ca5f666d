import { describe, expect, it } from 'vitest'
import {
  directCurrentResistance,
  lowFrequencyJoin,
} from '../../../src/impedance/closedForm/lowFrequencyJoin.ts'

describe('resistance at low frequency', () => {
  it('is 0.4926 milliohm a square for 35 um of annealed copper at 20 °C', () => {
    // Independent implementation: 1.7241e-8 ohm m over 35 um.
    expect(directCurrentResistance(1.7241e-8, 1, 35e-6)).toBeCloseTo(0.4926e-3, 8)
  })

  it('falls with width and thickness', () => {
    expect(directCurrentResistance(2e-8, 1e-4, 2e-5)).toBeCloseTo(10, 10)
  })

  it('joins direct current and skin effect: each where it is the larger, √2 times where they are equal', () => {
    expect(lowFrequencyJoin(3, 4)).toBe(5)
    expect(lowFrequencyJoin(10, 0.01)).toBeCloseTo(10, 4)
    expect(lowFrequencyJoin(0.01, 10)).toBeCloseTo(10, 4)
  })

  it('refuses a trace without section', () => {
    expect(() => directCurrentResistance(1.7e-8, 0, 35e-6)).toThrow(RangeError)
    expect(() => directCurrentResistance(1.7e-8, 1e-4, NaN)).toThrow(RangeError)
  })
})
