import type { Board } from '../board/board.ts'
import type { NetClass } from '../board/nets.ts'
import type { Stackup } from '../board/stackup.ts'
import type { Route } from '../routes/route.ts'
import type { CrossSection, LineRequest } from '../section/crossSection.ts'
import { deriveSection } from '../section/deriveSection.ts'
import { surroundingsOf } from '../section/surroundingsOf.ts'
import type { Metres } from '../units/quantity.ts'
import type { LineImpedance } from './estimate.ts'
import { estimateLine, uncoupledPair } from './estimateLine.ts'
import { type LineEntry, type LineTable, runningValue } from './lineTable.ts'
import { type LoadedLine, loadedLine } from './loadedLine.ts'
import { solveWidth } from './solveWidth.ts'

/**
 * Every line the review speaks of: the main route of each class on each signal layer, and each neck,
 * by class, layer and package, that a route uses or that a class gives a width for.
 */
export function tabulateLines(board: Board, routes: readonly Route[]): LineTable {
  const uses = usedNecks(board, routes)
  const layers = board.stackup.copper.filter((layer) => layer.role !== 'plane').map((layer) => layer.number)
  const usedLayers = new Set([...uses.values()].map((use) => `${use.netClass.name}|${use.layer}`))
  const mains = board.classes.flatMap((netClass) =>
    layers.map((layer) => mainEntry(board, netClass, layer, usedLayers.has(`${netClass.name}|${layer}`))),
  )
  const mainOf = new Map(mains.map((entry) => [`${entry.netClass}|${entry.layer}`, entry]))
  for (const use of unusedNecks(board, routes, layers)) if (!uses.has(keyOf(use))) uses.set(keyOf(use), use)
  const necks = [...uses.values()].map((use) =>
    neckEntry(board, use, mainOf.get(`${use.netClass.name}|${use.layer}`)?.width ?? null),
  )
  return lineTable([...necks, ...mains])
}

/** An index over entries. Where a class has coupled and split pairs on one layer, `gap` tells them apart. */
export function lineTable(entries: readonly LineEntry[]): LineTable {
  const index = new Map<string, LineEntry>()
  for (const entry of entries) {
    const key = [entry.netClass, entry.layer, entry.stretch, entry.package ?? ''].join('|')
    if (!index.has(key)) index.set(key, entry)
    index.set(`${key}|${entry.gap === null ? 'apart' : 'coupled'}`, entry)
  }
  return {
    entries,
    neck: (netClass, layer, packageName, gap) => {
      const key = [netClass, layer, 'neck', packageName].join('|')
      return index.get(gap === undefined ? key : `${key}|${gap === null ? 'apart' : 'coupled'}`)
    },
    main: (netClass, layer) => index.get([netClass, layer, 'main', ''].join('|')),
  }
}

interface NeckUse {
  readonly netClass: NetClass
  readonly layer: number
  readonly package: string
  readonly width: Metres
  readonly gap: Metres | null
  readonly used: boolean
}

function keyOf(use: NeckUse): string {
  return [use.netClass.name, use.layer, use.package, use.gap === null ? 'apart' : 'coupled'].join('|')
}

function usedNecks(board: Board, routes: readonly Route[]): Map<string, NeckUse> {
  const classes = new Map(board.classes.map((netClass) => [netClass.name, netClass]))
  const classOfNet = new Map(board.nets.map((net) => [net.name, classes.get(net.class)]))
  const uses = new Map<string, NeckUse>()
  for (const route of routes) {
    const netClass = classOfNet.get(route.net)
    if (netClass === undefined) continue
    const { package: packageName, width, gap } = route
    const use = { netClass, layer: route.exitLayer, package: packageName, width, gap, used: true }
    if (!uses.has(keyOf(use))) uses.set(keyOf(use), use)
  }
  return uses
}

/** Necks that no route uses but whose width is given: what the neck would be on the other layers. */
function unusedNecks(board: Board, routes: readonly Route[], layers: readonly number[]): NeckUse[] {
  const classOfNet = new Map(board.nets.map((net) => [net.name, net.class]))
  const pairsSeen = new Set(routes.map((route) => `${classOfNet.get(route.net) ?? ''}|${route.package}`))
  return board.classes.flatMap((netClass) => {
    const { width, gap } = netClass.neck
    if (width === null) return []
    return board.packages
      .filter((pack) => pairsSeen.has(`${netClass.name}|${pack.name}`))
      .flatMap((pack) =>
        layers.map((layer) => ({
          netClass,
          layer,
          package: pack.name,
          width,
          gap: netClass.structure === 'pair' ? gap : null,
          used: false,
        })),
      )
  })
}

function neckEntry(board: Board, use: NeckUse, mainWidth: Metres | null): LineEntry {
  const { netClass, layer, gap } = use
  const given = netClass.neck.width !== null
  // A neck wider than its main route would be no neck.
  const width = given || mainWidth === null ? use.width : Math.min(use.width, mainWidth)
  const line = lineOf(board, netClass, layer, width, gap, null)
  const loaded =
    use.used && line.impedance !== null ? neckAmongVias(board, use.package, line.impedance) : null
  return {
    netClass: netClass.name,
    layer,
    stretch: 'neck',
    package: use.package,
    width,
    gap,
    widthBasis: given ? 'given' : 'widest that fits the channel',
    used: use.used,
    ...line,
    loaded,
    runs: runningValue(line.impedance, loaded),
  }
}

/** A neck among the vias of its package; null where none stand beside it or they leave no room. */
export function neckAmongVias(board: Board, packageName: string, line: LineImpedance): LoadedLine | null {
  const pack = board.packages.find(({ name }) => name === packageName)
  const surroundings = pack && surroundingsOf(board.stackup, pack, board.vias, line.section)
  return surroundings ? loadedLine(line, surroundings) : null
}

function mainEntry(board: Board, netClass: NetClass, layer: number, used: boolean): LineEntry {
  const { width, coplanarGap } = netClass.main
  const gap = netClass.structure === 'pair' ? netClass.main.gap : null
  const about = {
    netClass: netClass.name,
    layer,
    stretch: 'main',
    package: null,
    gap,
    used,
    loaded: null,
  } as const
  if (width !== null) {
    const line = lineOf(board, netClass, layer, width, gap, coplanarGap)
    return { ...about, width, widthBasis: 'given', ...line, runs: runningValue(line.impedance, null) }
  }
  const request = { layer, width: 0, gap, coplanarGap, broadsideLayer: null }
  const solved = solveWidth(board.stackup, request, netClass.target, board.analysis.frequency)
  return {
    ...about,
    width: solved?.width ?? null,
    widthBasis: 'solved for the target',
    impedance: solved?.impedance ?? null,
    runs: runningValue(solved?.impedance ?? null, null),
    refusal: solved === null ? 'no width that can be etched reaches the target on this layer' : null,
  }
}

function lineOf(
  board: Board,
  netClass: NetClass,
  layer: number,
  width: Metres,
  gap: Metres | null,
  coplanarGap: Metres | null,
): { impedance: LineImpedance | null; refusal: string | null } {
  const request = { layer, width, gap, coplanarGap, broadsideLayer: null }
  const section = sectionOrRefusal(board.stackup, request)
  if (typeof section === 'string') return { impedance: null, refusal: section }
  const line = estimateLine(section, board.analysis.frequency)
  return { impedance: netClass.structure === 'pair' ? uncoupledPair(line) : line, refusal: null }
}

/** A width that the stackup cannot carry is a fact for the table; anything else that fails is a fault of ours. */
function sectionOrRefusal(stackup: Stackup, request: LineRequest): CrossSection | string {
  try {
    return deriveSection(stackup, request)
  } catch (error) {
    if (error instanceof RangeError) return error.message
    throw error
  }
}
