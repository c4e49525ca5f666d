import type { Metres, Point } from '../units/quantity.ts'

/** Length of a centre line from its first point to its last; 0 for fewer than two points. */
export function pathLength(path: readonly Point[]): Metres {
  return path.reduce((sum, point, index) => {
    const before = path[index - 1]
    return before === undefined ? sum : sum + Math.hypot(point.x - before.x, point.y - before.y)
  }, 0)
}
