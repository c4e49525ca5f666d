import type { Metres, Point } from '../../units/quantity.ts'
import type { FieldProblem, Wall } from './wall.ts'

/**
 * The conductors of a picture in air, after every metal face, planes included, has receded by a depth.
 *
 * Faces move along their normals and meet again where their lines do; dielectrics play no part and are left out.
 * Throws RangeError when a conductor has no thickness, when a wall of one is not between a plane and a plane, or
 * when the depth is not finite.
 */
export function recededProblem(problem: FieldProblem, depth: Metres): FieldProblem {
  if (!Number.isFinite(depth)) throw new RangeError(`depth must be finite, got ${depth} m`)
  const { lid } = problem
  const metal = problem.walls.filter((wall) => wall.conductor !== null)
  const raised = lid === null ? null : lid + 2 * depth
  // A plane at y = 0 that recedes is a picture that rises; a wall that stands on a plane goes along with it.
  const settle = (moved: Point, before: Point): Point => {
    if (before.y === 0) return { ...moved, y: 0 }
    return { ...moved, y: before.y === lid && raised !== null ? raised : moved.y + depth }
  }
  /** On the axis a face meets its mirror image; on a plane, or where the picture ends, it goes straight on. */
  const neighbour = (found: Wall | undefined, wall: Wall, end: Point): Wall =>
    found ?? (problem.symmetric && end.x === 0 ? mirrored(wall) : wall)
  const walls = metal.map((wall): Wall => {
    const before = metal.find((other) => isNext(other, wall))
    const after = metal.find((other) => isNext(wall, other))
    const isFoil = before === undefined && after === undefined && wall.cornerAtFrom && wall.cornerAtTo
    if (isFoil) throw new RangeError(`a conductor without thickness at x = ${wall.from.x} m cannot recede`)
    return {
      ...wall,
      left: 1,
      right: 1,
      from: settle(cornerOf(neighbour(before, wall, wall.from), wall, wall.from, depth), wall.from),
      to: settle(cornerOf(neighbour(after, wall, wall.to), wall, wall.to, depth), wall.to),
    }
  })
  return { ...problem, walls, lid: raised }
}

function isNext(first: Wall, second: Wall): boolean {
  return first.conductor === second.conductor && first.to.x === second.from.x && first.to.y === second.from.y
}

function mirrored({ from, to, ...rest }: Wall): Wall {
  return { ...rest, from: { x: 0 - to.x, y: to.y }, to: { x: 0 - from.x, y: from.y } }
}

/** Where the lines of two faces that met in a point meet after both have moved to their right, into the metal. */
function cornerOf(first: Wall, second: Wall, { x, y }: Point, depth: Metres): Point {
  const one = normalOf(first)
  const other = normalOf(second)
  // p with (p − point) · n = depth for both normals: along their sum, by depth over the cosine of half their angle.
  const share = depth / (1 + one.x * other.x + one.y * other.y)
  return { x: x + share * (one.x + other.x), y: y + share * (one.y + other.y) }
}

/** Unit normal to the right of a wall: the metal's side. */
function normalOf({ from, to }: Wall): Point {
  const length = Math.hypot(to.x - from.x, to.y - from.y)
  return { x: (to.y - from.y) / length, y: (from.x - to.x) / length }
}
