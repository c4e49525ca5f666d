import { hypotenuse } from '../numerics/hypotenuse.ts'
import type { Metres, Point } from '../units/quantity.ts'

/** Shortest distance from a point to the straight segment between `from` and `to`, ends included. */
export function distanceToSegment(point: Point, from: Point, to: Point): Metres {
  const dx = to.x - from.x
  const dy = to.y - from.y
  const squared = dx * dx + dy * dy
  const along = squared === 0 ? 0 : ((point.x - from.x) * dx + (point.y - from.y) * dy) / squared
  const share = Math.min(1, Math.max(0, along))
  return hypotenuse(point.x - from.x - share * dx, point.y - from.y - share * dy)
}

/**
 * Shortest distance between two straight segments, 0 where they cross or touch. Unless they cross, the
 * shortest way starts at one of the four ends.
 */
export function distanceBetweenSegments(a: Point, b: Point, c: Point, d: Point): Metres {
  if (cross(a, b, c, d)) return 0
  return Math.min(
    distanceToSegment(a, c, d),
    distanceToSegment(b, c, d),
    distanceToSegment(c, a, b),
    distanceToSegment(d, a, b),
  )
}

function cross(a: Point, b: Point, c: Point, d: Point): boolean {
  return turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0
}

/** Twice the signed area of the triangle: positive for a left turn. */
function turn(a: Point, b: Point, c: Point): number {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)
}
