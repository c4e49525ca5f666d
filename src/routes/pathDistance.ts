import type { Metres, Point } from '../units/quantity.ts'
import { distanceBetweenSegments, distanceToSegment } from './segmentDistance.ts'

/** Shortest distance from a point to a centre line; Infinity for an empty line. */
export function distanceToPath(point: Point, path: readonly Point[]): Metres {
  const [first] = path
  if (first === undefined) return Infinity
  return path.reduce(
    (least, corner, index) => Math.min(least, distanceToSegment(point, path[index - 1] ?? corner, corner)),
    Infinity,
  )
}

/** Shortest distance between two centre lines; Infinity where one is empty. */
export function distanceBetweenPaths(one: readonly Point[], other: readonly Point[]): Metres {
  let least = Infinity
  for (const [index, corner] of one.entries()) {
    for (const [place, point] of other.entries()) {
      const distance = distanceBetweenSegments(
        one[index - 1] ?? corner,
        corner,
        other[place - 1] ?? point,
        point,
      )
      least = Math.min(least, distance)
    }
  }
  return least
}
