import type { Board } from '../../board/board.ts'
import { viaOf } from '../../board/lookup.ts'
import type { ViaType } from '../../board/vias.ts'
import { formatLength } from '../../units/format.ts'
import { viaChains } from '../viaChain.ts'
import { differing, unchanged } from './variant.ts'
import type { Described, Variant } from './variant.ts'
import { leastPad } from './viaSize.ts'

/** Pads of vias on layers where they join nothing: removed where they are kept, kept where they are removed. */
export function innerPadsVariant(described: Described): Variant {
  const { board, pack } = described
  const now = viaOf(board, pack.via).unconnectedInnerPads
  const then = now === 'kept' ? 'removed' : 'kept'
  const id = then === 'removed' ? 'inner pads removed' : 'inner pads kept'
  const used = usedVias(described)
  // Microvias one below the other are joined on every layer between.
  const inner = used.filter(
    ({ padDiameters, arrangement, unconnectedInnerPads }) =>
      padDiameters.length > 2 && arrangement === null && unconnectedInnerPads !== then,
  )
  if (inner.length === 0) {
    return unchanged(described, id, `no via passes a layer with its pads ${now} where it joins nothing`)
  }
  const names = new Set(inner.map(({ name }) => name))
  return differing(
    described,
    id,
    `unconnected pads of ${[...names].join(', ')} ${then} instead of ${now} on inner layers`,
    withVias(board, names, (via) => ({ ...via, unconnectedInnerPads: then })),
  )
}

/** Via pads no larger than their ring needs after the layers have shifted. */
export function smallPadsVariant(described: Described): Variant {
  const { board } = described
  const id = 'smallest via pads'
  const length = (metres: number): string => formatLength(metres, board.displayUnit)
  const tolerance = board.analysis.comparisonTolerance
  const larger = usedVias(described).filter((via) =>
    via.padDiameters.some((pad) => pad > leastPad(via, board.fabrication) + tolerance),
  )
  if (larger.length === 0) {
    return unchanged(described, id, 'every via pad is as small as hole, ring and registration allow')
  }
  const names = new Set(larger.map(({ name }) => name))
  const each = larger.map((via) => {
    const least = leastPad(via, board.fabrication)
    return `${via.name} ${length(least)} instead of ${length(Math.max(...via.padDiameters))}`
  })
  return differing(
    described,
    id,
    `hole + 2 (ring + registration): ${each.join(', ')}`,
    withVias(board, names, (via) => ({
      ...via,
      padDiameters: via.padDiameters.map((pad) => Math.min(pad, leastPad(via, board.fabrication))),
    })),
  )
}

/** Vias that take nets of the package anywhere, or could. */
function usedVias({ board, pack, technology }: Described): ViaType[] {
  const chains = [...viaChains(board, pack, technology).values()]
  return [...new Set(chains.flatMap(({ pieces }) => pieces.map(({ via }) => via)))]
}

function withVias(board: Board, names: ReadonlySet<string>, change: (via: ViaType) => ViaType): Board {
  return { ...board, vias: board.vias.map((via) => (names.has(via.name) ? change(via) : via)) }
}
