import type { Segment } from './exactDistance.ts'
import type { Limit } from './limit.ts'

/** In the order in which a fault names them: the first of two is the one at fault. */
export const SHAPE_KINDS = [
  'main route',
  'trace',
  'dog-bone',
  'via pad',
  'land',
  'hole',
  'mask opening',
  'keep-out',
] as const

export type ShapeKind = (typeof SHAPE_KINDS)[number]

/** Whose a shape is, and what its net asks for. */
export interface Owner {
  /** Name of the ball, or of the keep-out. */
  readonly name: string
  /** Place in the package, keep-outs behind the balls. */
  readonly order: number
  /** The same number for all balls of one net. */
  readonly net: number
  /** Number of the other net of the pair; −1 for none. */
  readonly partner: number
  /** Gap to other nets on the two layers that carry mask, and on all others. */
  readonly outerGap: Limit
  readonly innerGap: Limit
  /** Gap inside the pair, where its plan has one, and between its main routes, where its class states one. */
  readonly coupledGap: Limit | null
  readonly mainGap: Limit | null
  readonly matchGroup: string | null
}

/**
 * All points within `radius` of a centre line, in steps of the grid: a disc, or a straight stretch of trace with round ends.
 * A keep-out is the rectangle between two corners instead, with radius 0.
 */
export interface Shape extends Segment {
  readonly kind: ShapeKind
  readonly owner: Owner
  readonly radius: number
}

/** On an exit layer: the neck, and the beginning of the main route behind it. */
export function isTrace({ kind }: Shape): boolean {
  return kind === 'trace' || kind === 'main route'
}

export function isLine(shape: Shape): boolean {
  return isTrace(shape) || shape.kind === 'dog-bone'
}

/** Rank of a shape in a fault: by kind, then by place in the package. */
export function isBefore(one: Shape, other: Shape): boolean {
  return one.kind === other.kind
    ? one.owner.order <= other.owner.order
    : SHAPE_KINDS.indexOf(one.kind) < SHAPE_KINDS.indexOf(other.kind)
}

export function nameOf(shape: Shape): string {
  return shape.kind === 'keep-out' ? `keep-out ${shape.owner.name}` : `${shape.kind} of ${shape.owner.name}`
}
