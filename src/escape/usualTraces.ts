import type { Board } from '../board/board.ts'
import type { NetClass } from '../board/nets.ts'
import type { Package } from '../board/packages.ts'
import { isOuter } from './chainReach.ts'
import { fitChannel } from './channelFit.ts'
import { figureOn } from './clearanceRules.ts'
import { neckOf } from './neck.ts'
import { unitChannel } from './unitChannel.ts'
import type { ViaChain } from './viaChain.ts'

/**
 * Traces between two neighbouring places of a layer, in the narrower of the two straight directions; null where
 * no described via reaches it. Without a class, the finest traces that the fabricator makes.
 */
export function usualTraces(
  board: Board,
  pack: Package,
  chains: ReadonlyMap<number, ViaChain>,
  layer: number,
  netClass: NetClass | null,
): number | null {
  const channel = unitChannel(board, pack, chains, layer)
  if (channel === null) return null
  const { traceWidth, traceGap } = board.fabrication
  const outer = isOuter(board, layer)
  const neck = netClass && neckOf(board, netClass, layer, channel.clear)
  return fitChannel({
    span: Math.min(channel.pitch.x, channel.pitch.y),
    rules: channel.rules,
    width: neck?.coupled?.width ?? neck?.width ?? figureOn(outer, traceWidth),
    traceGap: neck?.traceGap ?? figureOn(outer, traceGap),
    tolerance: board.analysis.comparisonTolerance,
  }).traces
}
