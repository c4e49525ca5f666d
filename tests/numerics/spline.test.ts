import { describe, expect, it } from 'vitest'
import { splineThrough } from '../../src/numerics/spline.ts'

const grid = (count: number, low: number, high: number): number[] =>
  Array.from({ length: count }, (_, index) => low + ((high - low) * index) / (count - 1))

describe('splineThrough', () => {
  it('passes through its points', () => {
    const xs = [0, 1, 3, 4]
    const ys = [2, -1, 5, 0]
    const curve = splineThrough(xs, ys)
    expect(xs.map((x) => curve.at(x))).toEqual(ys.map((y): unknown => expect.closeTo(y, 12)))
  })

  it('has an error of fourth order away from its ends', () => {
    const errorOf = (count: number): number => {
      const xs = grid(count, 0, 2 * Math.PI)
      return Math.abs(splineThrough(xs, xs.map(Math.sin)).at(2.95) - Math.sin(2.95))
    }
    const order = Math.log2(errorOf(21) / errorOf(41))
    expect(order).toBeGreaterThan(3)
  })

  it('finds every crossing of a level', () => {
    const xs = grid(81, 0.1, 10)
    // sin x = 1/2 at π/6, 5π/6, 13π/6, 17π/6.
    const exact = [1, 5, 13, 17].map((sixths) => (sixths * Math.PI) / 6)
    expect(splineThrough(xs, xs.map(Math.sin)).crossings(0.5)).toEqual(
      exact.map((root): unknown => expect.closeTo(root, 4)),
    )
  })

  it('counts a crossing that falls on a sample once', () => {
    expect(splineThrough([1, 2, 3, 4], [0, 1, 2, 3]).crossings(1)).toEqual([expect.closeTo(2, 12)])
  })

  it('has no crossing where the level is out of reach', () => {
    expect(splineThrough([1, 2, 3, 4], [5, 6, 7, 8]).crossings(9)).toEqual([])
  })

  it.each([
    ['too few points', [1, 2], [1, 2]],
    ['unequal lengths', [1, 2, 3], [1, 2]],
    ['a value that is not finite', [1, 2, 3], [1, NaN, 3]],
    ['abscissas out of order', [1, 3, 2], [1, 2, 3]],
  ])('refuses %s', (_, xs, ys) => {
    expect(() => splineThrough(xs, ys)).toThrow(RangeError)
  })
})
