import { holesNamed } from '../board/lookup.ts'
import type { Board } from '../board/board.ts'
import type { NetClass } from '../board/nets.ts'
import type { Package } from '../board/packages.ts'
import type { CopperLayer, DielectricLayer } from '../board/stackup.ts'
import type { ViaType } from '../board/vias.ts'
import type { OuterInner } from '../board/fabrication.ts'
import type { CrossSection } from '../section/crossSection.ts'
import type { Assumption } from '../units/assumption.ts'
import type { Metres } from '../units/quantity.ts'
import type { FindingContext } from './context.ts'

/** Parts of the board by name, made once a context. */
export interface BoardIndex {
  readonly classes: ReadonlyMap<string, NetClass>
  readonly packages: ReadonlyMap<string, Package>
  readonly vias: ReadonlyMap<string, ViaType>
  /** Net name to class. */
  readonly classOfNet: ReadonlyMap<string, NetClass>
}

const indices = new WeakMap<FindingContext, BoardIndex>()

export function boardIndex(context: FindingContext): BoardIndex {
  const known = indices.get(context)
  if (known !== undefined) return known
  const { board } = context
  const classes = new Map(board.classes.map((netClass) => [netClass.name, netClass]))
  const index = {
    classes,
    packages: new Map(board.packages.map((pack) => [pack.name, pack])),
    vias: new Map(board.vias.map((via) => [via.name, via])),
    classOfNet: new Map(
      board.nets.flatMap((net) => {
        const netClass = classes.get(net.class)
        return netClass === undefined ? [] : [[net.name, netClass] as const]
      }),
    ),
  }
  indices.set(context, index)
  return index
}

export function isOuter(board: Board, layerNumber: number): boolean {
  return layerNumber === 1 || layerNumber === board.stackup.copper.length
}

export function onLayer(board: Board, rule: OuterInner, layerNumber: number): Metres {
  return isOuter(board, layerNumber) ? rule.outer : rule.inner
}

/** Vias that the review is about: those of the packages and those that routes take, in the board's order. */
export function usedVias(context: FindingContext): ViaType[] {
  const index = boardIndex(context)
  const used = new Set(context.board.packages.flatMap((pack) => index.vias.get(pack.via) ?? []))
  for (const name of new Set(context.routes.map((route) => route.via))) {
    for (const via of holesNamed(context.board, name)) used.add(via)
  }
  return context.board.vias.filter((via) => used.has(via))
}

/** Limits of the fabricator that were filled in, of those named; with the class where that was a guess. */
export function assumedLimits(board: Board, ...keys: readonly string[]): Assumption[] {
  return board.fabrication.assumed.filter(({ path }) =>
    ['class', ...keys].some((key) => path.startsWith(`fabrication.${key}`)),
  )
}

/** Of a via's filled-in values those whose key begins with one of these. */
export function assumedOfVia(via: ViaType, ...keys: readonly string[]): Assumption[] {
  return via.assumed.filter(({ path }) => keys.some((key) => new RegExp(`\\.${key}`).test(path)))
}

/** Filled-in values that an impedance rests on: not tolerances, nor what matters for loss alone. */
export function assumedOfLine(section: CrossSection): Assumption[] {
  return section.assumed.filter(({ path }) => !/tolerance|roughness|loss_tangent|resistivity/.test(path))
}

/**
 * Depth that is drilled from the outer face of one copper layer to that of the other. Plating is left out where
 * it is known, as it comes after the drill.
 */
export function depthBetween(board: Board, firstLayer: number, lastLayer: number): Metres {
  const [upper, lower] = [Math.min(firstLayer, lastLayer), Math.max(firstLayer, lastLayer)]
  let copperAbove = 0
  let depth = 0
  for (const part of board.stackup.layers) {
    if (part.kind === 'copper') copperAbove = part.number
    if (part.kind === 'mask' || copperAbove < upper) continue
    if (part.kind === 'copper' ? part.number <= lower : copperAbove < lower) depth += drilledThickness(part)
  }
  return depth
}

function drilledThickness(part: CopperLayer | DielectricLayer): Metres {
  return part.kind === 'copper' ? Math.max(0, part.thickness - (part.plating ?? 0)) : part.thickness
}

/** Planes that a hole passes and so has antipads in; those it begins or ends on it does not pass. */
export function planesPassed(board: Board, via: ViaType): CopperLayer[] {
  return board.stackup.copper.filter(
    ({ role, number }) => role === 'plane' && number > via.firstLayer && number < via.lastLayer,
  )
}

/** Vias that stand in the field of a package: its own, and those that its routes take. */
export function viasInField(context: FindingContext, pack: Package): ViaType[] {
  const names = new Set([
    pack.via,
    ...context.routes.flatMap((route) =>
      route.package === pack.name && route.via !== null ? [route.via] : [],
    ),
  ])
  return [...new Set([...names].flatMap((name) => holesNamed(context.board, name)))]
}
