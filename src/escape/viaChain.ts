import type { Board } from '../board/board.ts'
import type { Package } from '../board/packages.ts'
import type { ViaType } from '../board/vias.ts'
import type { ViaTechnology } from './escape.ts'

/** One via of a chain, and the layers between which the signal runs through it. */
export interface ViaPiece {
  readonly via: ViaType
  readonly from: number
  readonly to: number
}

/** The holes, one below the other, that take a net from its land to one layer. */
export interface ViaChain {
  /** Names joined by ` + `, from the land inwards. */
  readonly name: string
  readonly exitLayer: number
  readonly pieces: readonly ViaPiece[]
}

/** Copper layer that the package's lands are on: the top one, or the bottom one. */
export function landLayerOf(board: Board, pack: Package): number {
  return pack.placement.side === 'top' ? 1 : board.stackup.copper.length
}

/**
 * The chain to every layer that the described vias reach from the package's land, by layer.
 *
 * Through technology knows one hole through the whole board. Blind technology joins blind holes, microvias and
 * buried vias end to end, fewest first, and takes the through hole only to layers that no such chain
 * ends on. More stacked microvias than the fabricator allows make no chain.
 */
export function viaChains(board: Board, pack: Package, technology: ViaTechnology): Map<number, ViaChain> {
  const chains = technology === 'blind' ? blindChains(board, pack) : new Map<number, ViaChain>()
  const through = throughVia(board, pack)
  if (through === null) return chains
  const land = landLayerOf(board, pack)
  for (const { number } of board.stackup.copper) {
    if (number === land || chains.has(number) || !spans(through, number)) continue
    chains.set(number, {
      name: through.name,
      exitLayer: number,
      pieces: [{ via: through, from: land, to: number }],
    })
  }
  return chains
}

/** The package's own via where it goes through, or else the first described one that starts at its land. */
export function throughVia(board: Board, pack: Package): ViaType | null {
  const land = landLayerOf(board, pack)
  const fitting = board.vias.filter((via) => via.kind === 'through' && spans(via, land))
  return fitting.find((via) => via.name === pack.via) ?? fitting[0] ?? null
}

/** True where the hole does not end on the layer that the net leaves on. */
export function goesThrough(chain: ViaChain): boolean {
  return chain.pieces.some(({ via }) => via.kind === 'through')
}

export function spans(via: ViaType, layer: number): boolean {
  return layer >= firstOf(via) && layer <= lastOf(via)
}

interface Reached {
  readonly layer: number
  readonly pieces: readonly ViaPiece[]
  /** Microvias standing on one another at the end of the chain. */
  readonly stacked: number
}

function blindChains(board: Board, pack: Package): Map<number, ViaChain> {
  const land = landLayerOf(board, pack)
  const vias = ownFirst(board.vias, pack.via).filter((via) => via.kind !== 'through')
  const chains = new Map<number, ViaChain>()
  const seen = new Set<string>()
  let front: Reached[] = [{ layer: land, pieces: [], stacked: 0 }]
  while (front.length > 0) {
    const next: Reached[] = []
    for (const reached of front) {
      for (const via of vias) {
        const step = stepThrough(via, reached, land === 1, board.fabrication.maxStackedMicrovias)
        if (step === null || seen.has(`${step.layer}|${step.stacked}`)) continue
        seen.add(`${step.layer}|${step.stacked}`)
        next.push(step)
        if (!chains.has(step.layer)) chains.set(step.layer, chainOf(step))
      }
    }
    front = next
  }
  return chains
}

/** The hole must begin where the chain ends, and lead away from the package. */
function stepThrough(via: ViaType, reached: Reached, downwards: boolean, stackLimit: number): Reached | null {
  const [near, far] = downwards ? [firstOf(via), lastOf(via)] : [lastOf(via), firstOf(via)]
  if (near !== reached.layer || far === near) return null
  const ownStack = via.kind === 'microvia' && via.arrangement === 'stacked' ? Math.abs(far - near) : 0
  const stacked = ownStack === 0 ? 0 : reached.stacked + ownStack
  if (stacked > Math.max(stackLimit, 1)) return null
  return { layer: far, pieces: [...reached.pieces, { via, from: near, to: far }], stacked }
}

function chainOf(reached: Reached): ViaChain {
  return {
    name: reached.pieces.map((piece) => piece.via.name).join(' + '),
    exitLayer: reached.layer,
    pieces: reached.pieces,
  }
}

function ownFirst(vias: readonly ViaType[], own: string): ViaType[] {
  return [...vias.filter((via) => via.name === own), ...vias.filter((via) => via.name !== own)]
}

function firstOf(via: ViaType): number {
  return Math.min(via.firstLayer, via.lastLayer)
}

function lastOf(via: ViaType): number {
  return Math.max(via.firstLayer, via.lastLayer)
}
