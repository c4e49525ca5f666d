import type { Board } from '../board/board.ts'
import type { Metres } from '../units/quantity.ts'
import type { ClearanceRule } from './clearanceRules.ts'
import { reachOf, viaRules } from './clearanceRules.ts'
import { spans } from './viaChain.ts'
import type { ViaChain } from './viaChain.ts'

/** True for the two copper layers that carry mask. */
export function isOuter(board: Board, layer: number): boolean {
  return layer === 1 || layer === board.stackup.copper.length
}

/**
 * Clearance rules of a chain of vias where it stands on a layer; empty where it does not. A pad stands where a
 * trace joins, at either end of a hole, and on every layer of a via whose unconnected pads are kept. Where the hole is
 * drilled back beyond the exit layer, only the wider bore is left, counted right up to that layer.
 */
export function chainRules(
  board: Board,
  chain: ViaChain,
  layer: number,
  connected: boolean,
): ClearanceRule[] {
  return chain.pieces
    .filter((piece) => spans(piece.via, layer))
    .flatMap(({ via, from, to }) => {
      if (via.backdrill !== null && isDrilledBack(via.backdrill.from, from, to, layer)) {
        return [
          {
            rule: 'drill to copper' as const,
            obstacleDiameter: via.backdrill.diameter,
            clearance: board.fabrication.drillToCopper,
          },
        ]
      }
      const end = layer === via.firstLayer || layer === via.lastLayer
      const pad = connected || end || via.unconnectedInnerPads === 'kept'
      return viaRules(via, layer, isOuter(board, layer), pad, board.fabrication)
    })
}

/** Drilled diameter of the plated hole of a chain on a layer; null where none passes it, or the plating is drilled out. */
export function barrelOn(chain: ViaChain, layer: number): Metres | null {
  const barrels = chain.pieces.flatMap(({ via, from, to }) => {
    const drilledBack = via.backdrill !== null && isDrilledBack(via.backdrill.from, from, to, layer)
    return spans(via, layer) && !drilledBack ? [via.drilledDiameter] : []
  })
  return barrels.length === 0 ? null : Math.max(...barrels)
}

/** True beyond the layer that the signal leaves the hole on, seen from the side on which it enters. */
function isDrilledBack(side: 'top' | 'bottom', from: number, to: number, layer: number): boolean {
  return side === 'bottom' ? from < to && layer > to : from > to && layer < to
}

/** Distance from the chain's centre to the nearest trace edge on a layer; 0 where it does not stand. */
export function chainReach(board: Board, chain: ViaChain, layer: number, connected: boolean): Metres {
  return reachOf(chainRules(board, chain, layer, connected))
}
