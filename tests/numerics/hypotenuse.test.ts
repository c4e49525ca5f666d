import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { hypotenuse } from '../../src/numerics/hypotenuse.ts'

const lengths = fc.double({ min: -1e3, max: 1e3, noNaN: true })

describe('the hypotenuse', () => {
  // Pythagorean triples: Euclid, Elements, book X, lemma before proposition 29.
  it.each([
    [3, 4, 5],
    [-12, 5, 13],
    [8, -15, 17],
    [-20, -21, 29],
    [0, -7, 7],
    [7, 0, 7],
    [0, 0, 0],
  ])('of %d and %d is %d', (x, y, length) => {
    expect(hypotenuse(x, y)).toBeCloseTo(length, 12)
  })

  it('does not overflow', () => {
    expect(hypotenuse(3e200, 4e200) / 1e200).toBeCloseTo(5, 12)
    expect(hypotenuse(3e-200, 4e-200) * 1e200).toBeCloseTo(5, 12)
  })

  it('is what the library of the language computes', () => {
    fc.assert(
      fc.property(lengths, lengths, (x, y) => {
        const expected = Math.hypot(x, y)
        expect(Math.abs(hypotenuse(x, y) - expected)).toBeLessThanOrEqual(2 ** -52 * expected)
      }),
      { seed: 20261201, numRuns: 2000 },
    )
  })

  it.each([
    [NaN, 1],
    [1, NaN],
    [NaN, 0],
    [0, NaN],
  ])('of %d and %d is no number', (x, y) => {
    expect(hypotenuse(x, y)).toBeNaN()
  })
})
