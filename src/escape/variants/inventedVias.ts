import type { Board } from '../../board/board.ts'
import type { Package } from '../../board/packages.ts'
import { pressings } from '../../board/vias/buildableSpans.ts'
import { holesOf } from '../../board/vias/holesOf.ts'
import type { ViaType } from '../../board/vias.ts'
import type { Assumption } from '../../units/assumption.ts'
import { formatLength } from '../../units/format.ts'
import { landLayerOf } from '../viaChain.ts'
import { signalLayersFrom } from '../unitChannel.ts'
import {
  DEEPEST_MICROVIA,
  DRILL,
  LASER,
  WALL_PLATING,
  depthBetween,
  holeFor,
  leastAntipad,
  leastPad,
} from './viaSize.ts'

/** Vias that nobody described, as the fabricator could make them. */
export interface InventedVias {
  readonly vias: readonly ViaType[]
  /** Signal layers that none of them reaches, and why. */
  readonly left: readonly { readonly layer: number; readonly why: string }[]
}

/** A through via: the smallest drill that the thickness of the board allows. */
export function inventThroughVia(board: Board): ViaType {
  return drilledVia(board, 'through', 1, board.stackup.copper.length)
}

/**
 * Blind vias from the lands to every signal layer inside: microvias one on the other as far as the fabricator stacks
 * them, drilled ones below, where an order of lamination makes them beside those described already.
 */
export function inventBlindVias(board: Board, pack: Package): InventedVias {
  const land = landLayerOf(board, pack)
  const stack = microviaStack(board, pack)
  return towards(board, pack, stack, 'blind', [land])
}

/** Microvias from the lands, and from below one of them, the deepest that can be, buried vias to the signal layers further in. */
export function inventMicrovias(board: Board, pack: Package): InventedVias {
  const stack = microviaStack(board, pack)
  if (stack.vias.length === 0) return stack
  const ends = stack.vias.map((via) => endOf(board, pack, via))
  return towards(board, pack, stack, 'buried', ends.toReversed())
}

/** What an invented via rests on, for print. */
export function inventedAssumptions(board: Board, vias: readonly ViaType[]): Assumption[] {
  const length = (metres: number): string => formatLength(metres, board.displayUnit)
  return vias.map((via) => ({
    path: `vias, "${via.name}"`,
    quantity: `invented via "${via.name}"`,
    value: `drilled ${length(via.drilledDiameter)}, pad ${length(Math.max(...via.padDiameters))}, antipad ${length(via.antipadDiameter)}`,
    source: `aspect ratio, ring, registration and clearances of the fabricator; no hole below ${length(via.kind === 'microvia' ? LASER.least : DRILL.least)}: common practice, no source`,
  }))
}

/** Adds a hole to every signal layer inside that the stack of microvias does not end on, from the first layer it can begin on. */
function towards(
  board: Board,
  pack: Package,
  stack: InventedVias,
  kind: 'blind' | 'buried',
  starts: readonly number[],
): InventedVias {
  const vias = [...stack.vias]
  const left: { layer: number; why: string }[] = []
  for (const layer of signalLayersInside(board, pack)) {
    if (stack.vias.some((via) => endOf(board, pack, via) === layer)) continue
    const via = starts
      .map((start) => drilledVia(board, kind, start, layer))
      .find((each) => isPressable(board, [...vias, each]))
    if (via !== undefined) vias.push(via)
    else left.push({ layer, why: `no order of lamination makes a ${kind} via that ends there` })
  }
  return { vias, left }
}

/** One microvia a dielectric from the lands inwards, until one is too deep or too many stand on one another. */
function microviaStack(board: Board, pack: Package): InventedVias {
  const land = landLayerOf(board, pack)
  const inwards = land === 1 ? 1 : -1
  const most = Math.max(board.fabrication.maxStackedMicrovias, 1)
  const deepest = signalLayersInside(board, pack).at(-1)
  const vias: ViaType[] = []
  if (deepest === undefined) return { vias, left: [] }
  let layer = land
  for (; vias.length < most && layer !== deepest; layer += inwards) {
    const next = layer + inwards
    const depth = depthBetween(board, layer, next) - (board.stackup.copper[next - 1]?.thickness ?? 0)
    const length = formatLength(depth, board.displayUnit)
    const limit = formatLength(DEEPEST_MICROVIA, board.displayUnit)
    if (depth > DEEPEST_MICROVIA) {
      return { vias, left: [{ layer: next, why: `a microvia of ${length} is deeper than ${limit}` }] }
    }
    const via = microvia(board, layer, next, depth)
    if (!isPressable(board, [...vias, via])) {
      return { vias, left: [{ layer: next, why: 'no order of lamination makes a microvia that ends there' }] }
    }
    vias.push(via)
  }
  return { vias, left: [] }
}

function microvia(board: Board, from: number, to: number, depth: number): ViaType {
  const drilled = holeFor(depth, board.fabrication.aspectRatio.microvia, LASER)
  return {
    ...viaBetween(board, 'microvia', from, to, drilled, 0),
    inPad: false,
    filled: true,
    capped: true,
    arrangement: 'stacked',
  }
}

function drilledVia(board: Board, kind: 'through' | 'blind' | 'buried', from: number, to: number): ViaType {
  const drilled = holeFor(depthBetween(board, from, to), board.fabrication.aspectRatio.drilled, DRILL)
  return viaBetween(board, kind, from, to, drilled, drilled - 2 * WALL_PLATING)
}

function viaBetween(
  board: Board,
  kind: ViaType['kind'],
  from: number,
  to: number,
  drilledDiameter: number,
  finishedDiameter: number,
): ViaType {
  const [firstLayer, lastLayer] = from < to ? [from, to] : [to, from]
  const pad = leastPad({ drilledDiameter, finishedDiameter }, board.fabrication)
  const names = [from, to].map((layer) => board.stackup.copper[layer - 1]?.name ?? `layer ${layer}`)
  return {
    name: freeName(board, `${kind === 'microvia' ? kind : `${kind} via`} ${names.join(' to ')}`),
    kind,
    firstLayer,
    lastLayer,
    drilledDiameter,
    finishedDiameter,
    stated: 'drilled',
    padDiameters: new Array<number>(lastLayer - firstLayer + 1).fill(pad),
    unconnectedInnerPads: 'kept',
    antipadDiameter: leastAntipad(drilledDiameter, pad, board.fabrication),
    backdrill: null,
    inPad: false,
    filled: false,
    capped: false,
    arrangement: null,
    assumed: [],
  }
}

/** Names of a board are told apart. */
function freeName(board: Board, name: string): string {
  return board.vias.some((via) => via.name === name) ? freeName(board, `${name}, invented`) : name
}

/** Signal layers below the lands, from the package's side, without the far face of the board: only through vias end there. */
function signalLayersInside(board: Board, pack: Package): number[] {
  const count = board.stackup.copper.length
  return signalLayersFrom(board, pack).filter((layer) => layer !== 1 && layer !== count)
}

function endOf(board: Board, pack: Package, via: ViaType): number {
  return landLayerOf(board, pack) === 1 ? via.lastLayer : via.firstLayer
}

/** Whether some order of lamination makes these beside the vias that the board has. */
function isPressable(board: Board, added: readonly ViaType[]): boolean {
  return pressingsOf(board, [...board.vias, ...added]) !== null
}

/** Pressings after which every hole can have been made; null where no order of lamination makes them all. */
export function pressingsOf(board: Board, vias: readonly ViaType[]): number | null {
  const dielectrics = board.stackup.layers.flatMap((part) => (part.kind === 'dielectric' ? [part.type] : []))
  return pressings(dielectrics, vias.flatMap(holesOf))
}
