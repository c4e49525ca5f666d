import { erf } from 'mathjs'
import { describe, expect, it } from 'vitest'
import { normalCumulative, normalDensity } from '../../src/numerics/normalDistribution.ts'

describe('the normal distribution', () => {
  // M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions, 1964, table 26.1, from memory; 15 decimals there.
  it.each([
    [0, 0.5],
    [1, 0.841344746068543],
    [2, 0.977249868051821],
    [3, 0.99865010196837],
  ])('at %d deviations has reached the tabulated share', (x, share) => {
    expect(Math.abs(normalCumulative(x) - share)).toBeLessThan(1e-15)
    expect(Math.abs(normalCumulative(-x) - (1 - share))).toBeLessThan(1e-15)
  })

  it('agrees with the error function of mathjs to its stated 1e-15', () => {
    for (let x = -9; x <= 9; x += 0.037) {
      expect(Math.abs(normalCumulative(x) - (1 + erf(x / Math.SQRT2)) / 2)).toBeLessThan(1e-15)
    }
  })

  it('is continuous where the series hands over to the fraction', () => {
    for (const seam of [-4, 4]) {
      const step = normalCumulative(seam + 1e-9) - normalCumulative(seam - 1e-9)
      expect(Math.abs(step - 2e-9 * normalDensity(seam))).toBeLessThan(1e-15)
    }
  })

  it('reaches its ends far out and refuses NaN', () => {
    expect([normalCumulative(40), normalCumulative(-40)]).toEqual([1, 0])
    expect(() => normalCumulative(NaN)).toThrow(RangeError)
  })
})
