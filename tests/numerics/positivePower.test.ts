import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { positivePower } from '../../src/numerics/positivePower.ts'

describe('positivePower', () => {
  it('is the power operator within the error it states', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-6, max: 1e6, noNaN: true }),
        fc.double({ min: -15, max: 15, noNaN: true }),
        (base, exponent) => {
          const error = Math.abs(positivePower(base, exponent) / base ** exponent - 1)
          expect(error).toBeLessThan((2 + Math.abs(exponent * Math.log(base))) * Number.EPSILON)
        },
      ),
      { seed: 1614, numRuns: 500 },
    )
  })

  it('ends at 0 and 1 and says that it knows no negative base', () => {
    expect(positivePower(0, 0.75)).toBe(0)
    expect(positivePower(7, 0)).toBe(1)
    expect(positivePower(-1, 0.5)).toBeNaN()
  })
})
