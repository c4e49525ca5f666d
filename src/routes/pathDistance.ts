import type { Metres, Point } from '../units/quantity.ts'
import { distanceBetweenSegments } from './segmentDistance.ts'

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
