import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { agm } from '../../src/numerics/agm.ts'

const positive = fc.double({ min: 1e-12, max: 1e12, noNaN: true })

describe('agm', () => {
  // C. F. Gauss, diary, 30 May 1799: 1/agm(1, √2) = 0.834 626 841 674 073 186…, Gauss's constant.
  it("gives Gauss's constant", () => {
    expect(1 / agm(1, Math.SQRT2)).toBeCloseTo(0.8346268416740731, 15)
  })

  // Handbook of Mathematical Functions, 17.6.3: K(k) = π/(2 agm(1, k′)); table 17.1: K at m = 0.5.
  it('gives the complete elliptic integral of the tables', () => {
    expect(Math.PI / (2 * agm(1, Math.SQRT1_2))).toBeCloseTo(1.854074677301372, 14)
  })

  it('lies between the geometric and the arithmetic mean, is symmetric and scales', () => {
    fc.assert(
      fc.property(positive, positive, fc.double({ min: 1e-3, max: 1e3, noNaN: true }), (a, b, factor) => {
        const mean = agm(a, b)
        expect(mean).toBeGreaterThanOrEqual(Math.sqrt(a) * Math.sqrt(b) * (1 - 1e-14))
        expect(mean).toBeLessThanOrEqual(((a + b) / 2) * (1 + 1e-14))
        expect(agm(b, a) / mean).toBeCloseTo(1, 13)
        expect(agm(factor * a, factor * b) / (factor * mean)).toBeCloseTo(1, 13)
      }),
      { seed: 17 },
    )
  })

  it('is left as it is by one step of its own iteration', () => {
    expect(agm(0.001, 5)).toBeCloseTo(agm((0.001 + 5) / 2, Math.sqrt(0.001 * 5)), 14)
  })

  it('holds for numbers so far apart that their product underflows', () => {
    // agm(1, k) → π/(2 ln(4/k)) for k → 0.
    expect(agm(1, 1e-300)).toBeCloseTo(Math.PI / (2 * Math.log(4e300)), 14)
    expect(agm(1e-200, 1e-200)).toBe(1e-200)
  })

  it.each([
    [0, 1],
    [1, -1],
    [NaN, 1],
    [1, Infinity],
  ])('refuses %s and %s', (a, b) => {
    expect(() => agm(a, b)).toThrow(RangeError)
  })
})
