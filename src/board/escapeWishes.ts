import type { Metres, Point } from '../units/quantity.ts'

/** What the designer prefers for the escape of one package. Order and priority are wishes; layers left out, sides, keep-outs and gaps hold. */
export interface EscapeWishes {
  /** Copper layers that may carry nets out, in the order in which they are filled; none stands for all, from the package's side. */
  readonly layerOrder: readonly number[]
  /** Nets that are planned before all others, most important first; nets named together are equals. No net stands twice. */
  readonly priority: readonly (readonly string[])[]
  /** Layers that priority nets are tried on first: shallow for a short barrel, deep where the rest is drilled back. */
  readonly priorityLayers: 'shallow' | 'deep'
  /** Side of the package through which a net must leave, by net name. */
  readonly exitSides: ReadonlyMap<string, ExitSide>
  readonly keepOuts: readonly KeepOut[]
  readonly apart: readonly GroupsApart[]
}

/** In the package's own frame: row A is at the top, column 1 at the left. */
export type ExitSide = 'top' | 'bottom' | 'left' | 'right'

/** A rectangle that no trace may touch, in the package's own frame. */
export interface KeepOut {
  readonly name: string
  readonly layers: readonly number[]
  readonly low: Point
  readonly high: Point
}

/** Traces of two match groups keep this gap, edge to edge, on one layer. */
export interface GroupsApart {
  readonly groups: readonly [string, string]
  readonly gap: Metres
}

/** Nothing preferred: layers in order from the package's side, outer rings first. */
export const NO_WISHES: EscapeWishes = {
  layerOrder: [],
  priority: [],
  priorityLayers: 'shallow',
  exitSides: new Map(),
  keepOuts: [],
  apart: [],
}
