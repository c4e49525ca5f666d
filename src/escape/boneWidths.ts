import type { Board } from '../board/board.ts'
import type { NetClass } from '../board/nets.ts'
import type { Package } from '../board/packages.ts'
import type { Metres } from '../units/quantity.ts'
import { isOuter } from './chainReach.ts'
import { figureOn } from './clearanceRules.ts'
import { neckOf } from './neck.ts'
import { remembered } from './remembered.ts'
import { unitChannel } from './unitChannel.ts'
import { landLayerOf } from './viaChain.ts'
import type { ViaChain } from './viaChain.ts'

/**
 * Width of the copper from land to via: the neck that the class has on the layer of the lands; for power and ground
 * half the smaller of land and via pad, but not less than the fabricator makes. Asked for once a ball and layer, so what
 * holds for all of a class is kept.
 * @param netClass Of the ball's net; undefined for power and ground.
 * @param supply The chain under a ball of power or ground; null without one.
 */
export function boneWidths(
  board: Board,
  pack: Package,
  chains: ReadonlyMap<number, ViaChain>,
): (netClass: NetClass | undefined, supply: ViaChain | null) => Metres {
  const landLayer = landLayerOf(board, pack)
  const clear = unitChannel(board, pack, chains, landLayer)?.clear ?? 0
  const narrowest = figureOn(isOuter(board, landLayer), board.fabrication.traceWidth)
  const ofClass = new Map<NetClass, Metres>()
  return (netClass, supply) => {
    if (netClass !== undefined) {
      return remembered(ofClass, netClass, () =>
        Math.min(pack.landDiameter, neckOf(board, netClass, landLayer, clear).width),
      )
    }
    const via = supply?.pieces[0]?.via
    const pad = via?.padDiameters[landLayer - via.firstLayer] ?? pack.landDiameter
    return Math.max(narrowest, Math.min(pack.landDiameter, pad) / 2)
  }
}
