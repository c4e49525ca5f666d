import { distanceBetweenSegments } from '../../routes/segmentDistance.ts'
import type { Metres } from '../../units/quantity.ts'
import type { ClearanceCheck, ClearanceFault } from '../escape.ts'
import { limitBetween } from './clearances.ts'
import type { Clearances } from './clearances.ts'
import { isInside, isNearer, isNearerToRectangle } from './exactDistance.ts'
import type { Segment } from './exactDistance.ts'
import { fromGrid } from './gridUnits.ts'
import type { Limit } from './limit.ts'
import type { Box, EachPair } from './neighbours.ts'
import { isBefore, isTrace, nameOf, SHAPE_KINDS } from './shape.ts'
import type { Shape } from './shape.ts'

interface Fault {
  readonly subject: Shape
  readonly object: Shape
  readonly limit: Limit
  readonly found: Metres
}

/**
 * Compares the shapes of one layer two by two. Pairs of which a box around one, grown by what the rule asks, does not
 * reach the other are clear by that alone; the rest are measured and counted. A trace of many stretches makes
 * one fault with each shape it comes too near to, where it is nearest.
 * @param asked Which pairs are looked at; left out: all.
 */
export function compareShapes(
  shapes: readonly Shape[],
  clearances: Clearances,
  layer: number,
  eachPair: EachPair,
  asked: (one: Shape, other: Shape) => boolean = () => true,
): ClearanceCheck {
  const faults = new Map<string, Fault>()
  let compared = 0
  eachPair(reachedBoxes(shapes, clearances), (first, second) => {
    const [one, other] = [shapes[first], shapes[second]]
    if (one === undefined || other === undefined || one.owner.net === other.owner.net) return
    if (!asked(one, other)) return
    const limit = limitBetween(clearances, one, other)
    if (limit === null) return
    // Below one step of the grid the centre line itself would lie in the other shape: never allowed.
    const apart = Math.max(1, one.radius + other.radius + limit.least)
    if (areBoxesApart(one, other, apart)) return
    compared++
    if (areNearer(one, other, apart)) keepWorst(faults, one, other, limit)
  })
  return {
    compared,
    faults: [...faults.values()].toSorted(inOrder).map((fault) => asFault(fault, layer)),
  }
}

/** Boxes that meet wherever two shapes are nearer than any rule asks: each is grown by half of the most that is asked of it. */
function reachedBoxes(shapes: readonly Shape[], clearances: Clearances): Box[] {
  const { outer, toPad, opening, hole, apart } = clearances
  const common = shapes.reduce(
    (most, { owner }) =>
      Math.max(most, (outer ? owner.outerGap : owner.innerGap).least, owner.coupledGap?.least ?? 0),
    Math.max(1, toPad.least, opening.least, hole.least, clearances.traceGap.least),
  )
  const ofGroup = new Map<string, number>()
  for (const { groups, limit } of apart) {
    for (const group of groups) ofGroup.set(group, Math.max(limit.least, ofGroup.get(group) ?? common))
  }
  return shapes.map((shape) => {
    const { owner, radius } = shape
    const group = isTrace(shape) ? owner.matchGroup : null
    const asked = group === null ? common : (ofGroup.get(group) ?? common)
    const grown = radius + Math.ceil(asked / 2)
    return {
      left: Math.min(shape.ax, shape.bx) - grown,
      right: Math.max(shape.ax, shape.bx) + grown,
      low: Math.min(shape.ay, shape.by) - grown,
      high: Math.max(shape.ay, shape.by) + grown,
    }
  })
}

function areBoxesApart(one: Segment, other: Segment, limit: number): boolean {
  return (
    isApart(one.ax, one.bx, other.ax, other.bx, limit) || isApart(one.ay, one.by, other.ay, other.by, limit)
  )
}

function isApart(a: number, b: number, c: number, d: number, limit: number): boolean {
  return Math.min(c, d) - Math.max(a, b) >= limit || Math.min(a, b) - Math.max(c, d) >= limit
}

function areNearer(one: Shape, other: Shape, limit: number): boolean {
  if (one.kind === 'keep-out') return isNearerToRectangle(other, one, limit)
  if (other.kind === 'keep-out') return isNearerToRectangle(one, other, limit)
  return isNearer(one, other, limit)
}

function keepWorst(faults: Map<string, Fault>, one: Shape, other: Shape, limit: Limit): void {
  const [subject, object] = isBefore(one, other) ? [one, other] : [other, one]
  const found = fromGrid(centreDistance(subject, object) - subject.radius - object.radius)
  const key = `${subject.kind}|${subject.owner.order}|${object.kind}|${object.owner.order}`
  const known = faults.get(key)
  if (known === undefined || found < known.found) faults.set(key, { subject, object, limit, found })
}

function centreDistance(line: Segment, object: Shape): number {
  if (object.kind !== 'keep-out') return between(line, object)
  const { ax, ay, bx, by } = object
  if (isInside(line.ax, line.ay, object) || isInside(line.bx, line.by, object)) return 0
  return Math.min(
    between(line, { ax, ay, bx, by: ay }),
    between(line, { ax: bx, ay, bx, by }),
    between(line, { ax, ay: by, bx, by }),
    between(line, { ax, ay, bx: ax, by }),
  )
}

function between(one: Segment, other: Segment): number {
  return distanceBetweenSegments(
    { x: one.ax, y: one.ay },
    { x: one.bx, y: one.by },
    { x: other.ax, y: other.ay },
    { x: other.bx, y: other.by },
  )
}

/** By ball, then by what it comes too near to: the order does not depend on which pair was met first. */
function inOrder(one: Fault, other: Fault): number {
  const places = rankOf(other)
  const difference = rankOf(one).map((place, index) => place - (places[index] ?? 0))
  return difference.find((step) => step !== 0) ?? 0
}

function rankOf({ subject, object }: Fault): number[] {
  return [
    subject.owner.order,
    SHAPE_KINDS.indexOf(subject.kind),
    object.owner.order,
    SHAPE_KINDS.indexOf(object.kind),
  ]
}

function asFault({ subject, object, limit, found }: Fault, layer: number): ClearanceFault {
  const { rule, needed } = limit
  const otherBall = object.kind === 'keep-out' ? null : object.owner.name
  return { layer, ball: subject.owner.name, other: nameOf(object), otherBall, rule, found, needed }
}
