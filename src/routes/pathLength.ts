import { hypotenuse } from '../numerics/hypotenuse.ts'
import type { Metres, Point } from '../units/quantity.ts'

/** Length of a centre line from its first point to its last; 0 for fewer than two points. */
export function pathLength(path: readonly Point[]): Metres {
  let length = 0
  let before = path[0]
  for (const point of path) {
    if (before !== undefined) length += hypotenuse(point.x - before.x, point.y - before.y)
    before = point
  }
  return length
}
