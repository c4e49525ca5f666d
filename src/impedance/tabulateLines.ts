import type { Board } from '../board/board.ts'
import { classOf, landLayerOf, netOf, packageOf } from '../board/lookup.ts'
import type { NetClass } from '../board/nets.ts'
import { groupBy } from '../numerics/groupBy.ts'
import type { NeckStretch, Route } from '../routes/route.ts'
import type { Metres } from '../units/quantity.ts'
import { amongVias } from './amongVias.ts'
import { type LineEntry, type LineTable, runningValue, type StretchLine } from './lineTable.ts'
import { alongStretch, classLine, gapAlong, neckWidth } from './neckLine.ts'
import { pooledPassage } from './pooledPassage.ts'
import { solvedMain } from './solvedMain.ts'

/**
 * Every line the review speaks of: the main route of each class on each signal layer, and each neck,
 * by class, layer and package, that a route uses or that a class gives a width for; and the line of each stretch
 * of every route.
 */
export function tabulateLines(board: Board, routes: readonly Route[]): LineTable {
  const used = usedNecks(board, routes)
  const layers = board.stackup.copper.filter((layer) => layer.role !== 'plane').map((layer) => layer.number)
  const usedLayers = new Set(used.map((use) => `${use.netClass.name}|${use.layer}`))
  const mains = board.classes.flatMap((netClass) =>
    layers.map((layer) => mainEntry(board, netClass, layer, usedLayers.has(`${netClass.name}|${layer}`))),
  )
  const mainOf = new Map(mains.map((entry) => [`${entry.netClass}|${entry.layer}`, entry]))
  const keys = new Set(used.map(keyOf))
  const uses = [...used, ...unusedNecks(board, routes, layers).filter((use) => !keys.has(keyOf(use)))]
  const along = new Map<NeckStretch, StretchLine>()
  const entries = uses.flatMap((use) => {
    const mainWidth = mainOf.get(`${use.netClass.name}|${use.layer}`)?.width ?? null
    const { entry, stretches } = neckEntry(board, use, mainWidth)
    for (const [stretch, line] of stretches) along.set(stretch, line)
    return use.leadIn ? [] : [entry]
  })
  return lineTable([...entries, ...mains], along, dogBones(board, routes))
}

/** An index over entries. Where a class has coupled and split pairs on one layer, `gap` tells them apart. */
function lineTable(
  entries: readonly LineEntry[],
  along: ReadonlyMap<NeckStretch, StretchLine> = new Map(),
  dogBoneOf: ReadonlyMap<Route, StretchLine> = new Map(),
): LineTable {
  const index = new Map<string, LineEntry>()
  for (const entry of entries) {
    const key = JSON.stringify([entry.netClass, entry.layer, entry.stretch, entry.package])
    if (!index.has(key)) index.set(key, entry)
    index.set(`${key} ${entry.gap === null ? 'apart' : 'coupled'}`, entry)
  }
  return {
    entries,
    neck: (netClass, layer, packageName, gap) => {
      const key = JSON.stringify([netClass, layer, 'neck', packageName])
      return index.get(gap === undefined ? key : `${key} ${gap === null ? 'apart' : 'coupled'}`)
    },
    main: (netClass, layer) => index.get(JSON.stringify([netClass, layer, 'main', null])),
    along: (stretch) => along.get(stretch),
    dogBone: (route) => dogBoneOf.get(route),
  }
}

interface NeckUse {
  readonly netClass: NetClass
  readonly layer: number
  readonly package: string
  readonly width: Metres
  readonly gap: Metres | null
  /** Where the traces of a pair are on their way to each other: a line for the signal, not one of the table. */
  readonly leadIn: boolean
  /** What the routes have of it; empty where none uses it. */
  readonly stretches: readonly NeckStretch[]
}

function keyOf(use: NeckUse): string {
  const kind = use.gap === null ? 'apart' : 'coupled'
  return JSON.stringify([use.netClass.name, use.layer, use.package, use.leadIn ? 'lead-in' : kind])
}

/** A line for each class, layer and package. Routes that share it have one width; of several the first stands. */
function usedNecks(board: Board, routes: readonly Route[]): NeckUse[] {
  const classes = new Map(board.classes.map((netClass) => [netClass.name, netClass]))
  const classOfNet = new Map(board.nets.map((net) => [net.name, classes.get(net.class)]))
  const uses = routes.flatMap((route): NeckUse[] => {
    const netClass = classOfNet.get(route.net)
    if (netClass === undefined) return []
    const { package: packageName, width, exitLayer: layer } = route
    return route.stretches.map((stretch) => ({
      netClass,
      layer,
      package: packageName,
      width,
      gap: gapAlong(route, stretch),
      leadIn: route.gap !== null && !stretch.coupled,
      stretches: [stretch],
    }))
  })
  return [...groupBy(uses, keyOf).values()].flatMap((group) =>
    group.slice(0, 1).map((first) => ({ ...first, stretches: group.flatMap(({ stretches }) => stretches) })),
  )
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
          leadIn: false,
          stretches: [],
        })),
      )
  })
}

interface TabulatedNeck {
  readonly entry: LineEntry
  readonly stretches: readonly (readonly [NeckStretch, StretchLine])[]
}

function neckEntry(board: Board, use: NeckUse, mainWidth: Metres | null): TabulatedNeck {
  const { netClass, layer, gap } = use
  const width = neckWidth(netClass, use.width, mainWidth)
  const { impedance: line, refusal } = classLine(board, netClass, { layer, width, gap, coplanarGap: null })
  const stretches =
    line === null
      ? []
      : use.stretches.map((stretch) => [stretch, alongStretch(board, line, width, stretch)] as const)
  const passage = use.stretches.length === 0 ? null : pooledPassage(use.stretches)
  const loaded = line === null || passage === null ? null : amongVias(board, line, passage)
  const impedances = stretches.map(([, { runs }]) => runs.impedance)
  const entry: LineEntry = {
    netClass: netClass.name,
    layer,
    stretch: 'neck',
    package: use.package,
    width,
    gap,
    widthBasis: netClass.neck.width !== null ? 'given' : 'widest that fits the channel',
    used: use.stretches.length > 0,
    impedance: line,
    refusal,
    passage,
    loaded,
    range: loaded === null ? null : { lowest: Math.min(...impedances), highest: Math.max(...impedances) },
    mostLoaded: mostLoadedOf(stretches),
    runs: line && runningValue(line, loaded),
  }
  return { entry, stretches }
}

function mostLoadedOf(stretches: TabulatedNeck['stretches']): LineEntry['mostLoaded'] {
  let most: LineEntry['mostLoaded'] = null
  for (const [{ length, beside }, { loaded }] of stretches) {
    if (loaded === null) continue
    if (most === null || Math.abs(loaded.ratio - 1) > Math.abs(most.loaded.ratio - 1)) {
      most = { passage: { length, beside }, loaded }
    }
  }
  return most
}

/** Lands and via beside a dog-bone are nearer to it than any plane is to them: it is taken as a line all the same. */
function dogBones(board: Board, routes: readonly Route[]): Map<Route, StretchLine> {
  const known = new Map<string, StretchLine | null>()
  const found = new Map<Route, StretchLine>()
  for (const route of routes) {
    if (!(route.dogBoneLength > 0)) continue
    const netClass = classOf(board, netOf(board, route.net))
    const key = JSON.stringify([netClass.name, route.package, route.width])
    let line = known.get(key)
    if (line === undefined) {
      const layer = landLayerOf(board, packageOf(board, route.package))
      const { impedance } = classLine(board, netClass, {
        layer,
        width: route.width,
        gap: null,
        coplanarGap: null,
      })
      line = impedance && {
        line: impedance,
        width: route.width,
        loaded: null,
        runs: runningValue(impedance, null),
      }
      known.set(key, line)
    }
    if (line !== null) found.set(route, line)
  }
  return found
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
    passage: null,
    loaded: null,
    range: null,
    mostLoaded: null,
  } as const
  if (width !== null) {
    const line = classLine(board, netClass, { layer, width, gap, coplanarGap })
    return {
      ...about,
      width,
      widthBasis: 'given',
      ...line,
      runs: line.impedance && runningValue(line.impedance, null),
    }
  }
  const solved = solvedMain(board, netClass, layer)
  return {
    ...about,
    width: solved?.width ?? null,
    widthBasis: 'solved for the target',
    impedance: solved?.impedance ?? null,
    runs: solved && runningValue(solved.impedance, null),
    refusal: solved === null ? 'no width that can be etched reaches the target on this layer' : null,
  }
}
