import { hypotenuse } from '../../numerics/hypotenuse.ts'
import type { Metres, Point } from '../../units/quantity.ts'

/** Shares of the largest possible chamfer that are tried, largest first. */
const SHARES = [1, 0.5]

/** Shorter than this, a piece of path counts as no piece. */
const SHORTEST = 1e-9

/**
 * Cuts the square corners of a path at 45° as far as the new piece is clear. A leg that lies between two corners is
 * shared by halves, so that a staircase becomes one straight slope; the last leg keeps `kept` of its length.
 */
export function chamfered(
  path: readonly Point[],
  kept: Metres,
  isClear: (from: Point, to: Point) => boolean,
): Point[] {
  const points: Point[] = []
  for (const [index, corner] of path.entries()) {
    const before = path[index - 1]
    const after = path[index + 1]
    if (before === undefined || after === undefined) {
      points.push(corner)
      continue
    }
    const incoming = distance(before, corner) / (index > 1 ? 2 : 1)
    const outgoing = index + 2 < path.length ? distance(corner, after) / 2 : distance(corner, after) - kept
    const largest = Math.min(incoming, outgoing)
    points.push(...cutCorner(before, corner, after, largest, isClear))
  }
  return withoutRepeats(points)
}

function cutCorner(
  before: Point,
  corner: Point,
  after: Point,
  largest: Metres,
  isClear: (from: Point, to: Point) => boolean,
): Point[] {
  if (largest < SHORTEST) return [corner]
  for (const share of SHARES) {
    const from = towards(corner, before, share * largest)
    const to = towards(corner, after, share * largest)
    if (isClear(from, to)) return [from, to]
  }
  return [corner]
}

/** The point at a distance from one point towards another. */
export function towards(from: Point, to: Point, length: Metres): Point {
  const whole = distance(from, to)
  const share = whole === 0 ? 0 : length / whole
  return { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share }
}

/** Only the ends and the corners of a path. */
export function cornersOf(path: readonly Point[]): Point[] {
  return path.filter((point, index) => {
    const before = path[index - 1]
    const after = path[index + 1]
    if (before === undefined || after === undefined) return true
    const straightX = before.x === point.x && point.x === after.x
    const straightY = before.y === point.y && point.y === after.y
    return !straightX && !straightY
  })
}

/** A path without the points that repeat the one before. */
export function withoutRepeats(path: readonly Point[]): Point[] {
  return path.filter((point, index) => {
    const before = path[index - 1]
    return before === undefined || distance(before, point) > SHORTEST
  })
}

function distance(one: Point, other: Point): Metres {
  return hypotenuse(other.x - one.x, other.y - one.y)
}
