import type { Metres, Ratio } from '../../units/quantity.ts'
import { checkProblem } from './checkProblem.ts'
import type { FieldProblem, Wall } from './wall.ts'

/** An element: a straight stretch of a wall on which the charge density is a polynomial. */
export interface Panel {
  readonly wall: Wall
  /** Middle, half length, and unit direction. */
  readonly x: number
  readonly y: number
  readonly half: number
  readonly logHalf: number
  readonly dx: number
  readonly dy: number
}

export interface Mesh {
  /** Those on faces of conductors come before those on interfaces. */
  readonly panels: readonly Panel[]
  /** Coefficients of the charge density on each panel: P_0 … P_{order−1}. */
  readonly order: number
}

export interface Refinement {
  /** How often panels shrink towards a corner below the size of what stands there. */
  readonly levels: number
  readonly order: number
  /**
   * A panel's half length over its distance to the nearest corner that is not its own, REACH where it is not said.
   * From 2 on, panels that grow from a corner as SHRINK makes them are not cut again beside its images, which saves a
   * third of the unknowns. It serves lines between unbroken planes at order 3; bodies and foils close by need the rest.
   */
  readonly reach?: Ratio
}

/** Each panel towards a corner is this share of the one before. */
const SHRINK = 0.2
/** For any picture. */
const REACH: Ratio = 1.6
/** Of half a panel over the distance of two planes: the far images vary too fast for their quadrature beyond. */
const LONGEST = 4
const DEEPEST = 60
/** A wall that runs through another's corner is not cut finer there than this share of the corner's finest panel. */
const CLOSEST = 0.01
/** A dense solution of as many takes about ten seconds. */
const MOST_UNKNOWNS = 2400
/** A panel that was cut to the finest length is not cut again for the last digit. */
const ROUNDING = 1 + 1e-9

interface Corner {
  readonly x: number
  readonly y: number
  /** Panels at the corner shrink to this length. */
  readonly finest: number
}

/**
 * Cuts every wall into panels: geometrically finer towards its own corners, and nowhere long against the
 * distance to another corner, images in planes and mirror included. The charge density is analytic away
 * from corners, so polynomials on such panels converge exponentially, whatever the exponent at the corner.
 *
 * Source: I. Babuška, B. Q. Guo, "The h–p version of the finite element method for domains with curved
 * boundaries", SIAM J. Numerical Analysis 25, 1988, pp. 837–861 (geometric meshes at corners).
 *
 * Throws RangeError when the walls are no picture, and when it would take more than MOST_UNKNOWNS unknowns.
 */
export function meshProblem(problem: FieldProblem, refinement: Refinement): Mesh {
  checkProblem(problem)
  checkRefinement(refinement)
  const { levels, order, reach = REACH } = refinement
  const corners = cornersOf(problem.walls, levels)
  const seen = withImages(corners, problem)
  const panels: Panel[] = []
  for (const wall of conductorsFirst(problem.walls)) {
    panels.push(...cutWall(wall, corners, seen, { reach, longest: LONGEST * (problem.lid ?? Infinity) }))
    if (panels.length * order > MOST_UNKNOWNS) {
      throw new RangeError(
        `the picture needs more than ${MOST_UNKNOWNS} unknowns at ${levels} levels of order ${order}: its sizes differ too much`,
      )
    }
  }
  return { order, panels }
}

function conductorsFirst(walls: readonly Wall[]): Wall[] {
  return [
    ...walls.filter(({ conductor }) => conductor !== null),
    ...walls.filter(({ conductor }) => conductor === null),
  ]
}

function checkRefinement({ levels, order, reach = REACH }: Refinement): void {
  if (!(Number.isInteger(levels) && levels >= 0 && levels <= 20)) {
    throw new RangeError(`levels of refinement must be a whole number from 0 to 20, got ${levels}`)
  }
  if (!(Number.isInteger(order) && order >= 1 && order <= 12)) {
    throw new RangeError(`order must be a whole number from 1 to 12, got ${order}`)
  }
  if (!(reach >= 0.1 && reach <= 10)) {
    throw new RangeError(`the reach of a panel must be from 0.1 to 10, got ${reach}`)
  }
}

function cornersOf(walls: readonly Wall[], levels: number): Corner[] {
  const points = new Map<string, { x: number; y: number }>()
  for (const { from, to, cornerAtFrom, cornerAtTo } of walls) {
    if (cornerAtFrom) points.set(keyOf(from), from)
    if (cornerAtTo) points.set(keyOf(to), to)
  }
  const all = [...points.values()]
  return all.map(({ x, y }) => {
    const nearest = Math.min(
      ...all.map((other) => distance(x, y, other.x, other.y)).filter((d) => d > 0),
      lengthAt(walls, x, y),
    )
    return { x, y, finest: nearest * SHRINK ** levels }
  })
}

/** Shortest wall that ends in the corner: the scale where it has no neighbour. */
function lengthAt(walls: readonly Wall[], x: number, y: number): number {
  const lengths = walls
    .filter(({ from, to }) => (from.x === x && from.y === y) || (to.x === x && to.y === y))
    .map(({ from, to }) => distance(from.x, from.y, to.x, to.y))
  return Math.min(...lengths)
}

function withImages(corners: readonly Corner[], { lid, symmetric }: FieldProblem): Corner[] {
  const mirrored = symmetric ? [...corners, ...corners.map((each) => ({ ...each, x: -each.x }))] : corners
  const below = mirrored.map((each) => ({ ...each, y: -each.y }))
  const above = lid === null ? [] : mirrored.map((each) => ({ ...each, y: 2 * lid - each.y }))
  return [...mirrored, ...below, ...above]
}

function cutWall(
  wall: Wall,
  corners: readonly Corner[],
  seen: readonly Corner[],
  { reach, longest }: { readonly reach: Ratio; readonly longest: Metres },
): Panel[] {
  const length = distance(wall.from.x, wall.from.y, wall.to.x, wall.to.y)
  const dx = (wall.to.x - wall.from.x) / length
  const dy = (wall.to.y - wall.from.y) / length
  const finestFrom = wall.cornerAtFrom ? finestAt(corners, wall.from) : null
  const finestTo = wall.cornerAtTo ? finestAt(corners, wall.to) : null
  const panels: Panel[] = []
  const cut = (start: number, end: number, depth: number): void => {
    const split = splitPoint(start, end)
    if (split === null || depth === 0) {
      const middle = (start + end) / 2
      const half = (end - start) / 2
      const [x, y] = [wall.from.x + dx * middle, wall.from.y + dy * middle]
      panels.push({ wall, x, y, half, logHalf: Math.log(half), dx, dy })
      return
    }
    cut(start, split, depth - 1)
    cut(split, end, depth - 1)
  }
  const splitPoint = (start: number, end: number): number | null => {
    const atFrom = finestFrom !== null && start === 0
    const atTo = finestTo !== null && end === length
    if (atFrom && atTo) return length / 2
    if (atFrom && end > ROUNDING * finestFrom) return end * SHRINK
    if (atTo && length - start > ROUNDING * finestTo) return length - (length - start) * SHRINK
    const half = (end - start) / 2
    const isLong = half > Math.min(longest, reach * nearestForeign(start, end, atFrom, atTo))
    return isLong ? start + half : null
  }
  const nearestForeign = (start: number, end: number, atFrom: boolean, atTo: boolean): number => {
    let nearest = Infinity
    for (const corner of seen) {
      if (atFrom && corner.x === wall.from.x && corner.y === wall.from.y) continue
      if (atTo && corner.x === wall.to.x && corner.y === wall.to.y) continue
      const along = (corner.x - wall.from.x) * dx + (corner.y - wall.from.y) * dy
      const across = (corner.y - wall.from.y) * dx - (corner.x - wall.from.x) * dy
      const beyond = Math.max(start - along, along - end, 0)
      nearest = Math.min(
        nearest,
        Math.max(Math.sqrt(beyond * beyond + across * across), CLOSEST * corner.finest),
      )
    }
    return nearest
  }
  cut(0, length, DEEPEST)
  return panels
}

function finestAt(
  corners: readonly Corner[],
  point: { readonly x: number; readonly y: number },
): number | null {
  return corners.find((corner) => corner.x === point.x && corner.y === point.y)?.finest ?? null
}

function keyOf({ x, y }: { readonly x: number; readonly y: number }): string {
  return `${x} ${y}`
}

function distance(x: number, y: number, otherX: number, otherY: number): number {
  return Math.hypot(x - otherX, y - otherY)
}
