import type { Board } from '../../board/board.ts'
import { viaOf } from '../../board/lookup.ts'
import type { ViaType } from '../../board/vias.ts'
import { formatLength } from '../../units/format.ts'
import { goesThrough, landLayerOf, throughVia, viaChains } from '../viaChain.ts'
import { inventBlindVias, inventedAssumptions, inventMicrovias, inventThroughVia } from './inventedVias.ts'
import type { InventedVias } from './inventedVias.ts'
import { differing, refused, unchanged, withPackage } from './variant.ts'
import type { Described, Variant } from './variant.ts'
import { wallToWall } from './viaSize.ts'

/** Holes through the whole board, beside the lands unless the description has a through via that stands in them. */
export function throughVariant(described: Described): Variant {
  const { board, pack } = described
  const id = 'through vias'
  const own = viaOf(board, pack.via)
  if (own.kind === 'through') return unchanged(described, id, `${own.name} goes through already`)
  const known = throughVia(board, pack)
  const via = known ?? inventThroughVia(board)
  const near = tooNear(described, via)
  if (near !== null) return refused(described, id, near)
  const place = via.inPad ? 'in the lands' : 'beside the lands'
  return differing(
    described,
    id,
    `${known === null ? 'invented: ' : ''}${holeText(board, via)}, ${place}`,
    withPackage(known === null ? { ...board, vias: [...board.vias, via] } : board, pack.name, {
      via: via.name,
      viaPlacement: via.inPad ? 'in pad' : 'dog-bone',
    }),
    { technology: 'through', assumed: known === null ? inventedAssumptions(board, [via]) : [] },
  )
}

/** Holes that end where their net leaves: those described, or as the fabricator could make them. */
export function blindVariant(described: Described): Variant {
  const { board, pack, technology } = described
  const id = 'blind vias'
  if (technology === 'blind') return unchanged(described, id, `${pack.via} does not go through`)
  const known = [...viaChains(board, pack, 'blind').values()].filter((chain) => !goesThrough(chain))
  if (known.length > 0) {
    const ends = known.map(({ name, exitLayer }) => `${name} to ${layerName(board, exitLayer)}`)
    return differing(described, id, `as described: ${ends.join(', ')}`, board, { technology: 'blind' })
  }
  const invented = inventBlindVias(board, pack)
  return withInvented(described, id, invented, (changed, first) =>
    withPackage(changed, pack.name, { via: first.name }),
  )
}

/** Laser holes in the lands, filled and capped; what they do not reach, buried vias below them do. */
export function microviaVariant(described: Described): Variant {
  const { board, pack } = described
  const id = 'microvias in the lands'
  const own = viaOf(board, pack.via)
  if (own.kind === 'microvia' && pack.viaPlacement === 'in pad') {
    return unchanged(described, id, `${own.name} stands in the lands already`)
  }
  const land = landLayerOf(board, pack)
  const starts = (via: ViaType): boolean => (land === 1 ? via.firstLayer : via.lastLayer) === land
  const known = [own, ...board.vias].find((via) => via.kind === 'microvia' && starts(via))
  // A hole through the board does not go into a land that a microvia is to take.
  const inside = board.vias.filter(({ kind }) => kind === 'microvia' || kind === 'buried')
  if (known !== undefined) {
    const near = tooNear(described, known) ?? touchesLands(described, known)
    if (near !== null) return refused(described, id, near)
    const changed = { ...board, vias: inside.map((via) => (via.name === known.name ? inLand(via) : via)) }
    return differing(
      described,
      id,
      `${holeText(board, known)}, in the lands, filled and capped`,
      withPackage(changed, pack.name, { via: known.name, viaPlacement: 'in pad' }),
      { technology: 'blind' },
    )
  }
  const invented = inventMicrovias(board, pack)
  const touching = invented.vias.filter(starts).flatMap((via) => touchesLands(described, via) ?? [])[0]
  if (touching !== undefined) return refused(described, id, touching)
  return withInvented(described, id, invented, (changed, first) =>
    withPackage(
      {
        ...changed,
        vias: [...inside, ...invented.vias].map((via) =>
          via.kind === 'microvia' && starts(via) ? inLand(via) : via,
        ),
      },
      pack.name,
      { via: first.name, viaPlacement: 'in pad' },
    ),
  )
}

/** A board with invented vias, or why there are none, or why they would stand too near to one another. */
function withInvented(
  described: Described,
  id: Variant['id'],
  { vias, left }: InventedVias,
  change: (board: Board, first: ViaType) => Board,
): Variant {
  const { board } = described
  const leftText = left.map(({ layer, why }) => `${layerName(board, layer)}: ${why}`).join('; ')
  const [first] = vias
  if (first === undefined) {
    return refused(
      described,
      id,
      leftText === '' ? 'no signal layer lies inside the board, where such a via could end' : leftText,
    )
  }
  const near = vias.flatMap((via) => tooNear(described, via) ?? [])[0]
  if (near !== undefined) return refused(described, id, near)
  const holes = vias.map((via) => holeText(board, via)).join(', ')
  return differing(
    described,
    id,
    `invented: ${holes}${leftText === '' ? '' : `; ${leftText}`}`,
    change({ ...board, vias: [...board.vias, ...vias] }, first),
    { technology: 'blind', assumed: inventedAssumptions(board, vias) },
  )
}

/** Why a hole under every ball would leave too thin a wall between neighbours; null where it does not. */
function tooNear({ board, pack }: Described, via: ViaType): string | null {
  if (pack.balls.length < 2) return null
  const length = (metres: number): string => formatLength(metres, board.displayUnit)
  const wall = wallToWall(pack.pitch, via.drilledDiameter)
  const needed = board.fabrication.holeWallToHoleWall
  if (wall >= needed - board.analysis.comparisonTolerance) return null
  return `holes of ${length(via.drilledDiameter)} (${via.name}) under neighbouring balls leave ${length(Math.max(wall, 0))} from wall to wall, and the fabricator needs ${length(needed)}`
}

/** Why a via in one land would touch the next land; null where it does not. */
function touchesLands({ board, pack }: Described, via: ViaType): string | null {
  const length = (metres: number): string => formatLength(metres, board.displayUnit)
  const pad = Math.max(...via.padDiameters)
  const pitch = Math.min(pack.pitch.x, pack.pitch.y)
  if (pack.balls.length < 2 || (pad + pack.landDiameter) / 2 < pitch) return null
  return `pads of ${length(pad)} (${via.name}) in the lands would touch the next lands of ${length(pack.landDiameter)}, ${length(pitch)} away`
}

function inLand(via: ViaType): ViaType {
  return { ...via, inPad: true, filled: true, capped: true }
}

function holeText(board: Board, via: ViaType): string {
  const length = (metres: number): string => formatLength(metres, board.displayUnit)
  return `${via.name}, drilled ${length(via.drilledDiameter)}, pad ${length(Math.max(...via.padDiameters))}`
}

function layerName(board: Board, layer: number): string {
  return board.stackup.copper[layer - 1]?.name ?? `layer ${layer}`
}
