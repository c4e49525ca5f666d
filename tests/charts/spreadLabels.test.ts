import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { spreadLabels } from '../../src/charts/spreadLabels.ts'

const SEED = 20261120

const wishes = fc
  .array(fc.double({ min: 0, max: 100, noNaN: true }), { minLength: 1, maxLength: 12 })
  .map((values) => [...values].sort((a, b) => a - b))

function cost(places: readonly number[], wished: readonly number[]): number {
  return places.reduce((sum, place, index) => sum + (place - (wished[index] ?? 0)) ** 2, 0)
}

describe('labels beside a drawing', () => {
  it('stay where they wish to be when they have room', () => {
    expect(spreadLabels([0, 20, 50], 10, -100, 100)).toEqual([0, 20, 50])
  })

  it('share the shift when two wish for one place', () => {
    expect(spreadLabels([50, 50], 10, 0, 100)).toEqual([45, 55])
  })

  it('stand apart, in order and inside their limits', () => {
    fc.assert(
      fc.property(wishes, (wished) => {
        const places = spreadLabels(wished, 8, 0, 100)
        expect(Math.min(...places)).toBeGreaterThanOrEqual(-1e-9)
        expect(Math.max(...places)).toBeLessThanOrEqual(100 + 1e-9)
        const steps = places.slice(1).map((place, index) => place - (places[index] ?? 0))
        expect(Math.min(Infinity, ...steps)).toBeGreaterThanOrEqual(8 - 1e-9)
      }),
      { seed: SEED },
    )
  })

  it('are nowhere nearer to all their wishes together: no other spaced order has a smaller sum of squares', () => {
    const shifts = fc.array(fc.double({ min: -5, max: 5, noNaN: true }), { minLength: 12, maxLength: 12 })
    fc.assert(
      fc.property(wishes, shifts, (wished, shift) => {
        const places = spreadLabels(wished, 8, -1000, 1000)
        // Another placement with the same spacing kept: pushed, then set apart again from the top.
        const other = places.map((place, index) => place + (shift[index] ?? 0))
        for (let index = 1; index < other.length; index++) {
          other[index] = Math.max(other[index] ?? 0, (other[index - 1] ?? 0) + 8)
        }
        expect(cost(places, wished)).toBeLessThanOrEqual(cost(other, wished) + 1e-6)
      }),
      { seed: SEED, numRuns: 300 },
    )
  })

  it('refuse wishes that fall and a negative spacing', () => {
    expect(() => spreadLabels([2, 1], 1, 0, 10)).toThrow('must rise')
    expect(() => spreadLabels([1, 2], -1, 0, 10)).toThrow(RangeError)
  })
})
