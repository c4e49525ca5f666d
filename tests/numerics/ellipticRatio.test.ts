import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { ellipticRatio } from '../../src/numerics/ellipticRatio.ts'

const complement = (k: number): number => Math.sqrt((1 - k) * (1 + k))

describe('ellipticRatio', () => {
  it('is 1 at k = 1/√2 and 1/2 at k = (√2 − 1)², the first singular moduli', () => {
    const k = (Math.SQRT2 - 1) ** 2
    expect(ellipticRatio(Math.SQRT1_2, Math.SQRT1_2)).toBeCloseTo(1, 15)
    expect(ellipticRatio(k, complement(k))).toBeCloseTo(0.5, 14)
  })

  it('turns into its inverse when modulus and complement change places', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 0.999999, noNaN: true }), (k) => {
        expect(ellipticRatio(k, complement(k)) * ellipticRatio(complement(k), k)).toBeCloseTo(1, 13)
      }),
      { seed: 17 },
    )
  })

  // W. Hilberg, IEEE Trans. MTT-17, 1969, 259–265, first form: two logarithms, below 3e-6 off everywhere.
  it('agrees with the two logarithms of Hilberg to their stated 3e-6', () => {
    for (let k = 0.02; k < 1; k += 0.02) {
      const high = k * k >= 0.5
      const root = Math.sqrt(high ? k : complement(k))
      const logarithm = Math.log((2 * (1 + root)) / (1 - root)) / Math.PI
      expect(ellipticRatio(k, complement(k)) / (high ? logarithm : 1 / logarithm)).toBeCloseTo(1, 5)
    }
  })

  // Independent implementation of the same equations.
  it('has the check values at k = 0.2 and 0.9', () => {
    expect(ellipticRatio(0.2, complement(0.2))).toBeCloseTo(0.526130192893, 11)
    expect(ellipticRatio(0.9, complement(0.9))).toBeCloseTo(1.37829455196, 10)
  })

  it('refuses moduli that are not complements, or not positive', () => {
    expect(() => ellipticRatio(0.5, 0.5)).toThrow(RangeError)
    expect(() => ellipticRatio(0, 1)).toThrow(RangeError)
    expect(() => ellipticRatio(NaN, 1)).toThrow(RangeError)
  })
})
