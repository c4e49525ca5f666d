import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { spreadApart } from '../../src/numerics/spreadApart.ts'

describe('places spread apart', () => {
  it('stay where they are far enough from each other', () => {
    expect(spreadApart([0, 2, 5], [2, 3])).toEqual([0, 2, 5])
    expect(spreadApart([1], [])).toEqual([1])
    expect(spreadApart([], [])).toEqual([])
  })

  it('move from each other by equal parts', () => {
    expect(spreadApart([0, 1], [2])).toEqual([-0.5, 1.5])
    expect(spreadApart([0, 1, 2], [2, 2])).toEqual([-1, 1, 3])
  })

  it('push those beside them', () => {
    const [first = NaN, second = NaN, third = NaN] = spreadApart([0, 1, 2.2], [2, 1])
    expect(second - first).toBeGreaterThanOrEqual(2 - 1e-12)
    expect(third - second).toBeGreaterThanOrEqual(1 - 1e-12)
  })

  it('move no more than they must, in the sense of least squares', () => {
    const sizes = fc.integer({ min: 2, max: 9 }).chain((size) =>
      fc.record({
        places: fc.array(fc.double({ min: 0, max: 10, noNaN: true }), { minLength: size, maxLength: size }),
        apart: fc.array(fc.double({ min: 0.1, max: 3, noNaN: true }), {
          minLength: size - 1,
          maxLength: size - 1,
        }),
      }),
    )
    fc.assert(
      fc.property(sizes, ({ places, apart }) => {
        const sorted = places.toSorted((a, b) => a - b)
        const found = spreadApart(sorted, apart)
        // Conditions of Karush, Kuhn and Tucker for min ½ Σ (q − p)² under q(i+1) − q(i) ≥ apart(i): the multiplier of
        // each bound is the sum of the moves up to it; none is negative, and where it is positive the bound is met.
        let multiplier = 0
        apart.forEach((asked, index) => {
          multiplier += Number(sorted[index]) - Number(found[index])
          const room = Number(found[index + 1]) - Number(found[index]) - asked
          expect(room).toBeGreaterThanOrEqual(-1e-9)
          expect(multiplier).toBeGreaterThanOrEqual(-1e-9)
          expect(Math.abs(multiplier * room)).toBeLessThan(1e-8)
        })
        const moved = found.reduce((sum, place, index) => sum + place - Number(sorted[index]), 0)
        expect(moved).toBeCloseTo(0, 9)
      }),
      { seed: 20261125, numRuns: 300 },
    )
  })

  it('refuses another number of distances', () => {
    expect(() => spreadApart([0, 1], [])).toThrow(RangeError)
  })
})
