import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { simplifyPolyline } from '../../src/numerics/simplifyPolyline.ts'

interface Place {
  readonly x: number
  readonly y: number
}

function distance({ x, y }: Place, line: readonly Place[]): number {
  const away = line.slice(1).map((to, index) => {
    const from = line[index] ?? to
    const [dx, dy] = [to.x - from.x, to.y - from.y]
    const squared = dx * dx + dy * dy
    const along =
      squared === 0 ? 0 : Math.min(Math.max(((x - from.x) * dx + (y - from.y) * dy) / squared, 0), 1)
    return Math.hypot(x - from.x - along * dx, y - from.y - along * dy)
  })
  return Math.min(...away)
}

describe('simplifyPolyline', () => {
  it('leaves of a straight line its ends', () => {
    const straight = [0, 1, 2, 3.5, 7].map((x) => ({ x, y: 2 * x }))
    expect(simplifyPolyline(straight, 1e-9)).toEqual([straight[0], straight[4]])
  })

  it('strays nowhere by more than the tolerance, and keeps the ends', () => {
    const coordinate = fc.double({ min: -10, max: 10, noNaN: true })
    fc.assert(
      fc.property(
        fc.array(fc.record({ x: coordinate, y: coordinate }), { minLength: 2, maxLength: 40 }),
        fc.double({ min: 0, max: 5, noNaN: true }),
        (points, tolerance) => {
          const thin = simplifyPolyline(points, tolerance)
          expect([thin[0], thin.at(-1)]).toEqual([points[0], points.at(-1)])
          for (const point of points) expect(distance(point, thin)).toBeLessThanOrEqual(tolerance + 1e-9)
        },
      ),
      { seed: 11 },
    )
  })

  it('keeps a closed line closed and open inside', () => {
    const circle = Array.from({ length: 101 }, (_, index) => {
      const turn = (2 * Math.PI * (index % 100)) / 100
      return { x: Math.cos(turn), y: Math.sin(turn) }
    })
    const thin = simplifyPolyline(circle, 0.01)
    expect(thin.at(-1)).toEqual(thin[0])
    expect(thin.length).toBeGreaterThan(12)
    expect(thin.length).toBeLessThan(40)
  })

  it('passes on what has no inside, and refuses a negative tolerance', () => {
    expect(simplifyPolyline([], 1)).toEqual([])
    expect(simplifyPolyline([{ x: 1, y: 2 }], 1)).toEqual([{ x: 1, y: 2 }])
    expect(() => simplifyPolyline([], -1)).toThrow(RangeError)
  })
})
