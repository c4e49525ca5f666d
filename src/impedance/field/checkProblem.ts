import type { Point } from '../../units/quantity.ts'
import { type FieldProblem, GROUNDED, type Wall } from './wall.ts'

/**
 * Refuses walls that are no picture: not finite, without length, outside the planes or left of the axis, conductors
 * that touch or cross each other, and interfaces that cross a conductor's face.
 *
 * Throws RangeError that names the place in metres. Costs a few operations for each pair of walls.
 */
export function checkProblem(problem: FieldProblem): void {
  for (const wall of problem.walls) checkWall(wall, problem)
  problem.walls.forEach((first, index) => {
    for (let later = index + 1; later < problem.walls.length; later += 1) {
      const second = problem.walls[later]
      if (second !== undefined && !areClear(first, second)) checkContact(first, second)
    }
  })
}

function checkWall(wall: Wall, problem: FieldProblem): void {
  const { from, to, left, right, conductor } = wall
  const name = nameOf(conductor)
  const numbers = [from.x, from.y, to.x, to.y, left, right]
  if (!numbers.every(Number.isFinite)) {
    throw new RangeError(`${name} has a wall that is not finite: ${numbers.slice(0, 4).join(', ')} m`)
  }
  if (!(left >= 1 && right >= 1)) {
    throw new RangeError(
      `relative permittivity beside ${name} must be at least 1, got ${Math.min(left, right)}`,
    )
  }
  if (from.x === to.x && from.y === to.y) {
    throw new RangeError(`${name} has a wall without length at ${at(from)}`)
  }
  if (conductor !== null && !(conductor < problem.conductors)) {
    throw new RangeError(`${name} is not one of the ${problem.conductors} conductors of the picture`)
  }
  checkSides(wall, problem)
}

function checkSides(wall: Wall, { lid, symmetric }: FieldProblem): void {
  checkPlane(wall, 0, [wall.from.y, wall.to.y])
  if (lid !== null) checkPlane(wall, lid, [lid - wall.from.y, lid - wall.to.y])
  if (symmetric && Math.min(wall.from.x, wall.to.x) < 0) {
    throw new RangeError(`${nameOf(wall.conductor)} lies left of the axis of symmetry, at ${at(wall.from)}`)
  }
}

/** A grounded wall, or an interface, may end on a plane; none may lie along one or beyond it. */
function checkPlane({ from, conductor }: Wall, plane: number, distances: readonly [number, number]): void {
  const [near, far] = [Math.min(...distances), Math.max(...distances)]
  const driven = conductor !== null && conductor !== GROUNDED
  if (near < 0 || far === 0 || (driven && near === 0)) {
    throw new RangeError(`${nameOf(conductor)} touches or passes the plane at y = ${plane} m, at ${at(from)}`)
  }
}

/** Far more apart, across or upwards, than rounding moves either: most pairs, for which no more need be asked. */
function areClear(first: Wall, second: Wall): boolean {
  const across = gapBetween(first.from.x, first.to.x, second.from.x, second.to.x)
  const upwards = gapBetween(first.from.y, first.to.y, second.from.y, second.to.y)
  return Math.max(across, upwards) > CLEAR * (extentOf(first) + extentOf(second))
}

/** Between two intervals, each given by its ends in any order; negative where they overlap. */
function gapBetween(a: number, b: number, c: number, d: number): number {
  return Math.max(Math.min(c, d) - Math.max(a, b), Math.min(a, b) - Math.max(c, d))
}

function extentOf({ from, to }: Wall): number {
  return Math.abs(to.x - from.x) + Math.abs(to.y - from.y)
}

/** Three orders above what counts as contact. */
const CLEAR = 1e-9

function checkContact(first: Wall, second: Wall): void {
  if (first.conductor === null && second.conductor === null) return
  const contact = contactOf(first, second)
  if (contact === null) return
  const apart = first.conductor !== second.conductor && first.conductor !== null && second.conductor !== null
  if (apart) {
    throw new RangeError(
      `${nameOf(first.conductor)} and ${nameOf(second.conductor)} touch or overlap at ${at(contact.place)}`,
    )
  }
  if (contact.crossing) {
    throw new RangeError(
      `${nameOf(first.conductor)} crosses ${nameOf(second.conductor)} at ${at(contact.place)}`,
    )
  }
}

function nameOf(conductor: number | null): string {
  if (conductor === null) return 'a dielectric interface'
  return conductor < 0 ? 'a grounded conductor' : `conductor ${conductor}`
}

function at({ x, y }: Point): string {
  return `x = ${x} m, y = ${y} m`
}

interface Contact {
  readonly place: Point
  /** Not merely end to end, nor an end on the other wall. */
  readonly crossing: boolean
}

/** Where two straight walls meet, to the last digits of a double. */
function contactOf(first: Wall, second: Wall): Contact | null {
  const [a, b] = [sideOf(first, second.from), sideOf(first, second.to)]
  const [c, d] = [sideOf(second, first.from), sideOf(second, first.to)]
  if (a === 0 && b === 0) return alongEachOther(first, second)
  if (a * b > 0 || c * d > 0) return null
  const place = a === 0 ? second.from : b === 0 ? second.to : d === 0 ? first.to : first.from
  return { place, crossing: a * b < 0 && c * d < 0 }
}

function alongEachOther(first: Wall, second: Wall): Contact | null {
  const length = Math.hypot(first.to.x - first.from.x, first.to.y - first.from.y)
  const along = ({ x, y }: Point): number =>
    ((x - first.from.x) * (first.to.x - first.from.x) + (y - first.from.y) * (first.to.y - first.from.y)) /
    (length * length)
  const places = [along(second.from), along(second.to)].sort((one, other) => one - other)
  const from = Math.max(0, places[0] ?? 0)
  const to = Math.min(1, places[1] ?? 0)
  if (to < from - ROUNDING) return null
  const place = {
    x: first.from.x + from * (first.to.x - first.from.x),
    y: first.from.y + from * (first.to.y - first.from.y),
  }
  return { place, crossing: to > from + ROUNDING }
}

const ROUNDING = 1e-12

/** −1, 0 or 1: on which side of a wall's line a place is. */
function sideOf({ from, to }: Wall, { x, y }: Point): number {
  const along = Math.hypot(to.x - from.x, to.y - from.y)
  const across = ((to.x - from.x) * (y - from.y) - (to.y - from.y) * (x - from.x)) / along
  return Math.abs(across) <= ROUNDING * Math.max(along, Math.hypot(x - from.x, y - from.y))
    ? 0
    : Math.sign(across)
}
