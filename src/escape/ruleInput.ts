import type { Board } from '../board/board.ts'
import type { Package } from '../board/packages.ts'
import { candidatesOf, mainClassOf } from './candidates.ts'
import { channelsPerLayer } from './channelsPerLayer.ts'
import type { SignalCount, ViaTechnology } from './escape.ts'
import type { RuleInput } from './layerRules.ts'
import { signalLayersFrom } from './unitChannel.ts'
import { usualTraces } from './usualTraces.ts'
import { landLayerOf, viaChains } from './viaChain.ts'

/**
 * What the layer rules ask of a package: traces are counted with the class that most of its signal balls belong to, on
 * the layer of the lands and on the first signal layer below. A technology of which no via is
 * described is given the channel of the other one.
 */
export function ruleInput(
  board: Board,
  pack: Package,
  signals: SignalCount,
  chosen: ViaTechnology,
): RuleInput {
  const netClass = mainClassOf(board, candidatesOf(board, pack))
  const land = landLayerOf(board, pack)
  const through = viaTraces('through')
  const blind = viaTraces('blind')
  const landTraces = usualTraces(board, pack, new Map(), land, netClass) ?? 0
  return {
    rows: pack.rows,
    columns: pack.columns,
    signals: signals.count,
    channels: channelsPerLayer(pack.rows, pack.columns),
    signalRows: signals.deepestRing,
    landTraces,
    throughTraces: through ?? blind ?? landTraces,
    blindTraces: blind ?? through ?? landTraces,
    chosen,
    trace: netClass === null ? 'the finest trace of the fabricator' : `class ${netClass.name}`,
  }

  function viaTraces(technology: ViaTechnology): number | null {
    const chains = viaChains(board, pack, technology)
    const layer = signalLayersFrom(board, pack).find((each) => each !== land && chains.has(each))
    return layer === undefined ? null : usualTraces(board, pack, chains, layer, netClass)
  }
}
