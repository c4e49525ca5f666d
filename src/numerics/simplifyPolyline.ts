import type { Point } from '../units/quantity.ts'

/**
 * The fewest of a line's own points from which it strays nowhere by more than `tolerance`, as far as halving
 * finds them. The ends stay; a closed line is cut at its first point.
 *
 * Source: D. H. Douglas, T. K. Peucker, "Algorithms for the reduction of the number of points required to
 * represent a digitized line or its caricature", Cartographica 10, 1973, pp. 112–122.
 * Throws RangeError for a negative tolerance.
 */
export function simplifyPolyline(points: readonly Point[], tolerance: number): Point[] {
  if (!(tolerance >= 0)) throw new RangeError(`tolerance must not be negative, got ${tolerance}`)
  const kept = new Set<Point>()
  const keepBetween = (from: number, to: number): void => {
    const [start, end] = [points[from], points[to]]
    if (start === undefined || end === undefined) return
    kept.add(start).add(end)
    let farthest = from
    let distance = tolerance
    for (let index = from + 1; index < to; index += 1) {
      const away = distanceToSegment(points[index] ?? start, start, end)
      if (away > distance) [farthest, distance] = [index, away]
    }
    if (farthest === from) return
    keepBetween(from, farthest)
    keepBetween(farthest, to)
  }
  keepBetween(0, points.length - 1)
  return points.filter((point) => kept.has(point))
}

function distanceToSegment(point: Point, start: Point, end: Point): number {
  const [dx, dy] = [end.x - start.x, end.y - start.y]
  const squared = dx * dx + dy * dy
  const along = squared === 0 ? 0 : ((point.x - start.x) * dx + (point.y - start.y) * dy) / squared
  const share = Math.min(Math.max(along, 0), 1)
  return Math.hypot(point.x - start.x - share * dx, point.y - start.y - share * dy)
}
