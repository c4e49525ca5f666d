import type { Metres, Point, Ratio } from '../../units/quantity.ts'
import { type FieldProblem, GROUNDED, type Wall } from './wall.ts'

/** Horizontal dielectric, from its lower face up to the next one's. */
export interface Slab {
  readonly bottom: Metres
  readonly permittivity: Ratio
}

/** A solid conductor as a closed polygon. */
export interface Body {
  /** Clockwise, so that the dielectric is on the left of every edge. */
  readonly outline: readonly Point[]
  /** Number of the conductor, or GROUNDED. */
  readonly conductor: number
}

/** A level conductor without thickness, at zero volts; the charge of its lower and its upper face is one. */
export interface Foil {
  readonly from: Metres
  readonly to: Metres
  readonly y: Metres
}

/** Conductors in level dielectrics above the plane y = 0, cut off at two sides. */
export interface Picture {
  /** From y = 0 upwards. */
  readonly slabs: readonly Slab[]
  readonly bodies: readonly Body[]
  /** Inside slabs, not on an interface. */
  readonly foils: readonly Foil[]
  /** Face of a mask to the air, from left to right; the topmost slab then reaches up to it. Else null. */
  readonly surface: readonly Point[] | null
  /** Sides where the picture ends; the left one is the axis x = 0 where the picture is half of a symmetric one. */
  readonly left: Metres
  readonly right: Metres
  /** Corners further right are so far from the traces, or so well shielded, that their singular charge is left out. */
  readonly sharpUntil: Metres
  readonly lid: Metres | null
  readonly symmetric: boolean
  /** How many conductors may carry a voltage. */
  readonly conductors: number
}

/**
 * Walls of a picture: faces of the bodies, split where an interface meets them; interfaces, interrupted by
 * bodies; the mask's face.
 *
 * Edges of a body on the planes or on the picture's sides are no faces. The charge is taken as singular at
 * convex corners of bodies, at the corners of the mask, and nowhere else: it vanishes in a concave one, and is
 * regular where an interface meets a face at a right angle.
 */
export function pictureProblem(picture: Picture): FieldProblem {
  return {
    walls: [
      ...picture.bodies.flatMap((body) => facesOf(body, picture)),
      ...picture.foils.map((foil) => foilWall(foil, picture)),
      ...interfaces(picture),
      ...surfaceWalls(picture),
    ],
    conductors: picture.conductors,
    lid: picture.lid,
    symmetric: picture.symmetric,
  }
}

interface Edge {
  readonly from: Point
  readonly to: Point
  readonly cornerAtFrom: boolean
  readonly cornerAtTo: boolean
}

/** The edges that are faces, with their corners. */
function edgesOf(body: Body, picture: Picture): Edge[] {
  const { outline } = body
  const corners = cornersOf(body, picture)
  return outline.flatMap((from, index) => {
    const next = (index + 1) % outline.length
    const to = outline[next] ?? from
    if (isCut(from, to, picture)) return []
    return [{ from, to, cornerAtFrom: corners[index] === true, cornerAtTo: corners[next] === true }]
  })
}

/** Which vertices of a body are corners with a singular charge: convex, between two faces, and not too far off. */
function cornersOf({ outline }: Body, picture: Picture): boolean[] {
  return outline.map((here, index) => {
    const before = outline.at(index - 1) ?? here
    const after = outline[(index + 1) % outline.length] ?? here
    const turn = (here.x - before.x) * (after.y - here.y) - (here.y - before.y) * (after.x - here.x)
    if (isCut(before, here, picture) || isCut(here, after, picture)) return false
    return turn < 0 && here.x < picture.sharpUntil
  })
}

/** An edge along a plane or a side of the picture is no face. */
function isCut(from: Point, to: Point, { left, right, lid }: Picture): boolean {
  const upright = from.x === to.x && (from.x === left || from.x === right)
  return upright || (from.y === to.y && (from.y === 0 || from.y === lid))
}

function facesOf(body: Body, picture: Picture): Wall[] {
  const { conductor } = body
  const levels = boundaries(picture.slabs).map(({ y }) => y)
  return edgesOf(body, picture).flatMap(({ from, to, cornerAtFrom, cornerAtTo }) => {
    const crossed = levels
      .filter((y) => y > Math.min(from.y, to.y) && y < Math.max(from.y, to.y))
      .sort((first, second) => (to.y > from.y ? first - second : second - first))
      .map((y) => ({ x: from.x + ((to.x - from.x) * (y - from.y)) / (to.y - from.y), y }))
    const points = [from, ...crossed, to]
    return points.slice(1).map((end, index) => {
      const start = points[index] ?? from
      const outside = outsideOf(picture.slabs, start, end)
      return {
        from: start,
        to: end,
        conductor,
        left: outside,
        right: outside,
        cornerAtFrom: cornerAtFrom && index === 0,
        cornerAtTo: cornerAtTo && index === crossed.length,
      }
    })
  })
}

function foilWall({ from, to, y }: Foil, { slabs, left, sharpUntil }: Picture): Wall {
  const [start, end] = [
    { x: from, y },
    { x: to, y },
  ]
  const outside = outsideOf(slabs, start, end)
  return {
    from: start,
    to: end,
    conductor: GROUNDED,
    left: outside,
    right: outside,
    cornerAtFrom: from > left && from < sharpUntil,
    cornerAtTo: to < sharpUntil,
  }
}

function outsideOf(slabs: readonly Slab[], from: Point, to: Point): Ratio {
  const middle = (from.y + to.y) / 2
  // Of a level face the dielectric is above where it runs to the right.
  const under = from.y === to.y && to.x < from.x
  const found = slabs.filter(({ bottom }) => (under ? bottom < middle : bottom <= middle)).at(-1)
  return found?.permittivity ?? 1
}

/** Where the permittivity changes from one slab to the next. */
function boundaries(slabs: readonly Slab[]): { y: Metres; above: Ratio; below: Ratio }[] {
  return slabs.slice(1).flatMap(({ bottom, permittivity }, index) => {
    const below = slabs[index]?.permittivity ?? permittivity
    return below === permittivity ? [] : [{ y: bottom, above: permittivity, below }]
  })
}

function interfaces(picture: Picture): Wall[] {
  const { slabs, bodies, left, right } = picture
  const corners = bodies.flatMap((body) => {
    const isCorner = cornersOf(body, picture)
    return body.outline.filter((_, index) => isCorner[index] === true)
  })
  return boundaries(slabs).flatMap(({ y, above, below }) => {
    const atCorner = (x: Metres): boolean => corners.some((corner) => corner.x === x && corner.y === y)
    return freeStretches(
      bodies.flatMap((body) => spansAt(body, y)),
      left,
      right,
    ).map(({ from, to }) => ({
      from: { x: from, y },
      to: { x: to, y },
      conductor: null,
      left: above,
      right: below,
      cornerAtFrom: atCorner(from),
      cornerAtTo: atCorner(to),
    }))
  })
}

interface Span {
  readonly from: Metres
  readonly to: Metres
}

/** What a body covers of a level, just above and just below it. */
function spansAt({ outline }: Body, y: Metres): Span[] {
  const crossings = (isMet: (low: Metres, high: Metres) => boolean): Span[] => {
    const places = outline
      .flatMap((from, index) => {
        const to = outline[(index + 1) % outline.length] ?? from
        if (!isMet(Math.min(from.y, to.y), Math.max(from.y, to.y))) return []
        return [
          from.y === y
            ? from.x
            : to.y === y
              ? to.x
              : from.x + ((to.x - from.x) * (y - from.y)) / (to.y - from.y),
        ]
      })
      .sort((first, second) => first - second)
    return places.flatMap((from, index) => (index % 2 === 0 ? [{ from, to: places[index + 1] ?? from }] : []))
  }
  return [
    ...crossings((low, high) => low <= y && y < high),
    ...crossings((low, high) => low < y && y <= high),
  ]
}

function freeStretches(taken: readonly Span[], left: Metres, right: Metres): Span[] {
  const stretches: Span[] = []
  let at = left
  for (const { from, to } of [...taken].sort((first, second) => first.from - second.from)) {
    if (from > at) stretches.push({ from: at, to: from })
    at = Math.max(at, to)
  }
  if (at < right) stretches.push({ from: at, to: right })
  return stretches
}

function surfaceWalls({ surface, slabs, sharpUntil }: Picture): Wall[] {
  if (surface === null) return []
  const inside = slabs.at(-1)?.permittivity ?? 1
  return surface.slice(1).map((to, index) => {
    const from = surface[index] ?? to
    return {
      from,
      to,
      conductor: null,
      left: 1,
      right: inside,
      cornerAtFrom: index > 0 && from.x < sharpUntil,
      cornerAtTo: index < surface.length - 2 && to.x < sharpUntil,
    }
  })
}
