import type { Board } from '../board/board.ts'
import type { ViaType } from '../board/vias.ts'
import type { Metres, Ratio } from '../units/quantity.ts'
import { depthBetween, isOuter } from './boardIndex.ts'
import type { Channel } from './channels.ts'
import { isAbove, isBelow } from './drawn.ts'

/** Holes that a via type is made of: stacked and staggered microvias are one hole a dielectric. */
export interface Hole {
  readonly firstLayer: number
  readonly lastLayer: number
  /** From the outer face it is drilled through to the copper it ends on, or out of the far face. */
  readonly depth: Metres
}

/** A laser stops on its target land, a drill goes through the last layer too. */
export function holesOf(board: Board, via: ViaType): Hole[] {
  const first = Math.min(via.firstLayer, via.lastLayer)
  const last = Math.max(via.firstLayer, via.lastLayer)
  const step = via.kind === 'microvia' && via.arrangement !== null ? 1 : last - first
  const holes: Hole[] = []
  for (let upper = first; upper < last; upper += step) {
    const full = depthBetween(board, upper, upper + step)
    const middle = (upper + upper + step) / 2
    // Microvias of the lower half are burnt from below: their target is the upper layer.
    const target = middle < (board.stackup.copper.length + 1) / 2 ? upper + step : upper
    const depth = via.kind === 'microvia' ? full - depthBetween(board, target, target) : full
    holes.push({ firstLayer: upper, lastLayer: upper + step, depth })
  }
  return holes
}

export function aspectLimit(board: Board, via: ViaType): Ratio {
  const { drilled, microvia } = board.fabrication.aspectRatio
  return via.kind === 'microvia' ? microvia : drilled
}

/** Whether a drill of this diameter keeps the aspect ratio in every hole of the via. */
export function drillIsDeepEnough(board: Board, via: ViaType, drilled: Metres): boolean {
  return (
    drilled > 0 &&
    holesOf(board, via).every((hole) => !isAbove(hole.depth / drilled, aspectLimit(board, via)))
  )
}

export interface Ring {
  readonly place: 'external' | 'internal'
  readonly layer: number
  readonly pad: Metres
  /** As drawn: external from the finished hole, internal from the drilled one. */
  readonly ring: Metres
  readonly limit: Metres
}

/** The rings of a via on each layer of its span. */
export function ringsOf(board: Board, via: ViaType): Ring[] {
  const first = Math.min(via.firstLayer, via.lastLayer)
  const { external, internal } = board.fabrication.annularRing
  return via.padDiameters.map((pad, index) => {
    const layer = first + index
    const outer = isOuter(board, layer)
    const hole = outer ? via.finishedDiameter : via.drilledDiameter
    const place = outer ? 'external' : 'internal'
    return { place, layer, pad, ring: (pad - hole) / 2, limit: outer ? external : internal }
  })
}

/** Whether every ring holds with the pad of one layer, or the drill, changed. */
export function ringsHold(board: Board, via: ViaType): boolean {
  return ringsOf(board, via).every(({ ring, limit }) => !isBelow(ring, limit))
}

/** The via with another drill, the plating as it is. */
export function withDrill(via: ViaType, drilled: Metres): ViaType {
  const plating = via.drilledDiameter - via.finishedDiameter
  return { ...via, drilledDiameter: drilled, finishedDiameter: Math.max(0, drilled - plating) }
}

/** Space left over in a channel once an obstacle has another diameter in one of the tests. */
export function remainderWith(
  { fit }: Channel,
  rule: Channel['fit']['governing']['rule'],
  obstacleDiameter: Metres,
): Metres {
  const needed = fit.governing.clear - fit.remainder
  const clear = fit.tests.map((test) =>
    test.rule === rule ? fit.span - obstacleDiameter - 2 * test.clearance : test.clear,
  )
  return Math.min(...clear) - needed
}
