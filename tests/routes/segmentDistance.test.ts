import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { distanceBetweenPaths } from '../../src/routes/pathDistance.ts'
import { distanceBetweenSegments, distanceToSegment } from '../../src/routes/segmentDistance.ts'
import type { Point } from '../../src/units/quantity.ts'

const SEED = 20260304
const coordinate = fc.double({ min: -5, max: 5, noNaN: true })
const point = fc.record({ x: coordinate, y: coordinate })

const STEPS = 400

function along(from: Point, to: Point): Point[] {
  return Array.from({ length: STEPS + 1 }, (_, step) => ({
    x: from.x + ((to.x - from.x) * step) / STEPS,
    y: from.y + ((to.y - from.y) * step) / STEPS,
  }))
}

const apart = (one: Point, other: Point): number => Math.hypot(one.x - other.x, one.y - other.y)

describe('distanceToSegment', () => {
  it('agrees with the nearest of many points on the segment', () => {
    fc.assert(
      fc.property(point, point, point, (p, from, to) => {
        const nearest = Math.min(...along(from, to).map((each) => apart(p, each)))
        const exact = distanceToSegment(p, from, to)
        expect(exact).toBeLessThanOrEqual(nearest + 1e-9)
        expect(exact).toBeGreaterThanOrEqual(nearest - apart(from, to) / STEPS)
      }),
      { seed: SEED },
    )
  })

  it('is the distance to the point where the segment is one', () => {
    expect(distanceToSegment({ x: 3, y: 4 }, { x: 0, y: 0 }, { x: 0, y: 0 })).toBe(5)
  })
})

describe('distanceBetweenSegments', () => {
  it('is symmetric, and never more than between any two points of the two', () => {
    fc.assert(
      fc.property(point, point, point, point, (a, b, c, d) => {
        const exact = distanceBetweenSegments(a, b, c, d)
        expect(distanceBetweenSegments(c, d, a, b)).toBeCloseTo(exact, 9)
        const sampled = Math.min(...along(a, b).map((each) => distanceToSegment(each, c, d)))
        expect(exact).toBeLessThanOrEqual(sampled + 1e-9)
        expect(exact).toBeGreaterThanOrEqual(sampled - apart(a, b) / STEPS)
      }),
      { seed: SEED },
    )
  })

  it('is 0 where they cross', () => {
    expect(distanceBetweenSegments({ x: 0, y: 0 }, { x: 2, y: 2 }, { x: 0, y: 2 }, { x: 2, y: 0 })).toBe(0)
  })
})

describe('distances of paths', () => {
  const bent = [
    { x: 0, y: 0 },
    { x: 4, y: 0 },
    { x: 4, y: 3 },
  ]

  it('take the nearest piece', () => {
    expect(distanceBetweenPaths([{ x: 6, y: 2 }], bent)).toBe(2)
    expect(
      distanceBetweenPaths(bent, [
        { x: 1, y: 1 },
        { x: 2, y: 5 },
      ]),
    ).toBe(1)
    expect(
      distanceBetweenPaths(bent, [
        { x: 3, y: 1 },
        { x: 5, y: 1 },
      ]),
    ).toBe(0)
  })

  it('take a single point as it is', () => {
    expect(distanceBetweenPaths([{ x: 0, y: 2 }], [{ x: 0, y: 0 }])).toBe(2)
    expect(distanceBetweenPaths([{ x: 0, y: 2 }], [])).toBe(Infinity)
  })
})
