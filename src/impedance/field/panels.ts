import type { Metres, Point, Ratio } from '../../units/quantity.ts'
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
  const points: Point[] = []
  const put = (point: Point): void => {
    if (!points.some(({ x, y }) => x === point.x && y === point.y)) points.push(point)
  }
  for (const { from, to, cornerAtFrom, cornerAtTo } of walls) {
    if (cornerAtFrom) put(from)
    if (cornerAtTo) put(to)
  }
  return points.map((point) => {
    let nearest = shortestWallAt(walls, point)
    for (const other of points)
      if (other !== point) nearest = Math.min(nearest, squaredDistance(point, other))
    return { x: point.x, y: point.y, finest: Math.sqrt(nearest) * SHRINK ** levels }
  })
}

/** Squared length of the shortest wall that ends in a corner: the scale where it has no neighbour. */
function shortestWallAt(walls: readonly Wall[], { x, y }: Point): number {
  let shortest = Infinity
  for (const { from, to } of walls) {
    if ((from.x === x && from.y === y) || (to.x === x && to.y === y)) {
      shortest = Math.min(shortest, squaredDistance(from, to))
    }
  }
  return shortest
}

function withImages(corners: readonly Corner[], { lid, symmetric }: FieldProblem): Corner[] {
  const seen = [...corners]
  const addImages = (image: (corner: Corner) => Corner): void => {
    seen.push(...seen.map(image))
  }
  if (symmetric) addImages(({ x, y, finest }) => ({ x: -x, y, finest }))
  const count = seen.length
  addImages(({ x, y, finest }) => ({ x, y: -y, finest }))
  if (lid !== null) {
    for (const { x, y, finest } of seen.slice(0, count)) seen.push({ x, y: 2 * lid - y, finest })
  }
  return seen
}

/** What a wall sees of the corners, in its own coordinates from its start. */
interface Seen {
  readonly along: Float64Array
  /** Squares of the distance from the wall's line, and of what panels there are at least compared with. */
  readonly across: Float64Array
  readonly least: Float64Array
  /** Which of them stand at the wall's own ends: FROM, TO, or 0. */
  readonly own: Uint8Array
}

const FROM = 1
const TO = 2

function seenFrom({ from, to }: Wall, corners: readonly Corner[], dx: number, dy: number): Seen {
  const seen = {
    along: new Float64Array(corners.length),
    across: new Float64Array(corners.length),
    least: new Float64Array(corners.length),
    own: new Uint8Array(corners.length),
  }
  corners.forEach(({ x, y, finest }, index) => {
    const across = (y - from.y) * dx - (x - from.x) * dy
    seen.along[index] = (x - from.x) * dx + (y - from.y) * dy
    seen.across[index] = across * across
    seen.own[index] = x === from.x && y === from.y ? FROM : x === to.x && y === to.y ? TO : 0
    seen.least[index] = CLOSEST * finest * (CLOSEST * finest)
  })
  return seen
}

/** Distance of a stretch of the wall to the nearest corner; not of its own end where it begins or ends there. */
function nearestForeign(seen: Seen, start: number, end: number, atFrom: boolean, atTo: boolean): number {
  const { along, across, least, own } = seen
  const left = (atFrom ? FROM : 0) + (atTo ? TO : 0)
  let nearest = Infinity
  for (let index = 0; index < along.length; index += 1) {
    if (((own[index] ?? 0) & left) > 0) continue
    const at = along[index] ?? NaN
    const beyond = Math.max(start - at, at - end, 0)
    nearest = Math.min(nearest, Math.max(beyond * beyond + (across[index] ?? NaN), least[index] ?? NaN))
  }
  return Math.sqrt(nearest)
}

function cutWall(
  wall: Wall,
  corners: readonly Corner[],
  seen: readonly Corner[],
  { reach, longest }: { readonly reach: Ratio; readonly longest: Metres },
): Panel[] {
  const length = Math.hypot(wall.to.x - wall.from.x, wall.to.y - wall.from.y)
  const dx = (wall.to.x - wall.from.x) / length
  const dy = (wall.to.y - wall.from.y) / length
  const finestFrom = wall.cornerAtFrom ? finestAt(corners, wall.from) : null
  const finestTo = wall.cornerAtTo ? finestAt(corners, wall.to) : null
  const foreign = seenFrom(wall, seen, dx, dy)
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
    const isLong = half > Math.min(longest, reach * nearestForeign(foreign, start, end, atFrom, atTo))
    return isLong ? start + half : null
  }
  cut(0, length, DEEPEST)
  return panels
}

function finestAt(corners: readonly Corner[], point: Point): number | null {
  return corners.find((corner) => corner.x === point.x && corner.y === point.y)?.finest ?? null
}

function squaredDistance(one: Point, other: Point): number {
  const across = one.x - other.x
  const upwards = one.y - other.y
  return across * across + upwards * upwards
}
