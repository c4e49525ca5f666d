import { hypotenuse } from '../../numerics/hypotenuse.ts'
import { pathLength } from '../../routes/pathLength.ts'
import { distanceBetweenSegments } from '../../routes/segmentDistance.ts'
import type { Metres, Point } from '../../units/quantity.ts'
import { towards, withoutRepeats } from './chamfer.ts'

/** A path from a ball to the rail of its pair, and on along it. */
export interface Join {
  readonly path: Point[]
  readonly length: Metres
  /** Where it joins the rail, from the beginning of that, within its first leg. */
  readonly at: Metres
  readonly firstLeg: Metres
  readonly railLength: Metres
  /** The path as far as the first corner of the rail. */
  readonly head: Point[]
}

/** A line at a constant distance beside another, to its left where the distance is positive; corners are mitred. */
export function besideLine(path: readonly Point[], distance: Metres): Point[] {
  return path.map((corner, index) => {
    const before = directionOf(path[index - 1], corner)
    const after = directionOf(corner, path[index + 1])
    const one = before ?? after
    const other = after ?? before
    if (one === null || other === null) return corner
    // The mitre lies along the sum of the two normals.
    const x = 0 - one.y - other.y
    const y = one.x + other.x
    const share = distance / (1 + one.x * other.x + one.y * other.y)
    return { x: corner.x + x * share, y: corner.y + y * share }
  })
}

/** Shares of the rail's first leg at which a ball may join it. */
const PLACES = [0, 0.25, 0.5, 0.75, 1]

/**
 * Simple ways from a ball to the first leg of a rail: straight, round one square corner, or with one piece at 45°. None
 * that turns back on itself anywhere.
 */
export function joinsTo(start: Point, rail: readonly Point[]): Join[] {
  const [first, second] = rail
  if (first === undefined || second === undefined) return []
  const leg = hypotenuse(second.x - first.x, second.y - first.y)
  const railLength = pathLength(rail)
  const reach = Math.min(leg, 2 * hypotenuse(first.x - start.x, first.y - start.y))
  return PLACES.flatMap((share) => {
    const at = share * reach
    const target = towards(first, second, at)
    const rest = [target, ...rail.slice(1)]
    return waysTo(start, target).flatMap((way): Join[] => {
      // The last place may be the next corner of the rail.
      const path = withoutRepeats([...way, ...rest])
      return turnsBack(path)
        ? []
        : [{ path, length: pathLength(path), at, firstLeg: leg, railLength, head: [...way, target, second] }]
    })
  })
}

/**
 * Length of a joined rail on which the two of a pair run side by side, from where the later one joins; the outer rail of a
 * bend is longer. Both rails begin beside each other.
 */
export function coupledLength({ at, firstLeg, railLength }: Join, other: Join): Metres {
  return railLength - Math.min(Math.max(at, other.at), firstLeg)
}

/** True where a corner is sharper than a square one. */
function turnsBack(path: readonly Point[]): boolean {
  let before: Point | null = null
  for (let index = 1; index < path.length; index += 1) {
    const onward = directionOf(path[index - 1], path[index])
    if (before !== null && onward !== null && before.x * onward.x + before.y * onward.y < -SQUARE) return true
    before = onward
  }
  return false
}

/** Cosines up to this count as those of a square corner. */
const SQUARE = 1e-6

/** True where the two keep their distance until both are on their rails. */
export function joinsKeepApart(one: Join, other: Join, distance: Metres): boolean {
  let from = one.head[0]
  for (const to of one.head) {
    let otherFrom = other.head[0]
    for (const otherTo of other.head) {
      const near = distanceBetweenSegments(from ?? to, to, otherFrom ?? otherTo, otherTo)
      if (near < distance) return false
      otherFrom = otherTo
    }
    from = to
  }
  return true
}

/** The points before the target. */
function waysTo(start: Point, target: Point): Point[][] {
  const dx = target.x - start.x
  const dy = target.y - start.y
  const slope = Math.min(Math.abs(dx), Math.abs(dy))
  const ways: Point[][] = [[start]]
  if (slope === 0) return ways
  const step = { x: Math.sign(dx) * slope, y: Math.sign(dy) * slope }
  return [
    ...ways,
    [start, { x: start.x + step.x, y: start.y + step.y }],
    [start, { x: target.x - step.x, y: target.y - step.y }],
    [start, { x: start.x, y: target.y }],
    [start, { x: target.x, y: start.y }],
  ]
}

function directionOf(from: Point | undefined, to: Point | undefined): Point | null {
  if (from === undefined || to === undefined) return null
  const length = hypotenuse(to.x - from.x, to.y - from.y)
  return length === 0 ? null : { x: (to.x - from.x) / length, y: (to.y - from.y) / length }
}
