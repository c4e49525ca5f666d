import { describe, expect, it } from 'vitest'
import { normalisedFrequency } from '../../../src/impedance/closedForm/normalisedFrequency.ts'

describe('normalisedFrequency', () => {
  it('is gigahertz times millimetres', () => {
    expect(normalisedFrequency(10e9, 0.1e-3)).toBeCloseTo(1, 12)
    // One vacuum wavelength is 299.792458 GHz mm.
    expect(normalisedFrequency(299_792_458, 1)).toBeCloseTo(299.792458, 9)
  })

  it.each([
    [0, 1e-3],
    [1e9, 0],
    [NaN, 1e-3],
  ])('refuses frequency %s and height %s', (frequency, height) => {
    expect(() => normalisedFrequency(frequency, height)).toThrow(/dispersion/)
  })
})
