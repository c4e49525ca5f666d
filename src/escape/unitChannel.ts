import type { Board } from '../board/board.ts'
import type { GridPitch, Package } from '../board/packages.ts'
import type { Metres } from '../units/quantity.ts'
import { chainRules } from './chainReach.ts'
import { landRules, reachOf } from './clearanceRules.ts'
import type { ClearanceRule } from './clearanceRules.ts'
import { goesThrough, landLayerOf } from './viaChain.ts'
import type { ViaChain } from './viaChain.ts'

/** The gap between two neighbouring places that both hold what is usual on a layer. */
export interface UnitChannel {
  readonly pitch: GridPitch
  readonly rules: readonly ClearanceRule[]
  /** Clear space in the narrower direction. */
  readonly clear: Metres
}

/**
 * What a trace meets between neighbouring places on a layer: lands on the layer of the lands, vias on the others.
 * A through via that connects elsewhere stands there without its pad where unconnected pads are removed; a blind
 * via is met on the layer where it ends. Null where no described via reaches the layer.
 */
export function unitChannel(
  board: Board,
  pack: Package,
  chains: ReadonlyMap<number, ViaChain>,
  layer: number,
): UnitChannel | null {
  if (layer === landLayerOf(board, pack)) return channelOf(pack.pitch, landRules(pack, board.fabrication))
  const chain = chains.get(layer)
  if (chain === undefined) return null
  return channelOf(viaGrid(pack), chainRules(board, chain, layer, !goesThrough(chain)))
}

/** Distance between neighbouring vias: that of the lands where the vias stand in them. */
export function viaGrid(pack: Package): GridPitch {
  return pack.viaPlacement === 'in pad' ? pack.pitch : pack.viaPitch
}

/** Copper layers that carry signals, from the package's side. */
export function signalLayersFrom(board: Board, pack: Package): number[] {
  const layers = board.stackup.copper.filter(({ role }) => role !== 'plane').map(({ number }) => number)
  return layers.toSorted((a, b) => (pack.placement.side === 'top' ? a - b : b - a))
}

function channelOf(pitch: GridPitch, rules: readonly ClearanceRule[]): UnitChannel {
  return { pitch, rules, clear: Math.min(pitch.x, pitch.y) - 2 * reachOf(rules) }
}
