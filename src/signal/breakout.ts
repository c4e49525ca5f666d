import type { Board } from '../board/board.ts'
import type { NetClass } from '../board/nets.ts'
import type { Package } from '../board/packages.ts'
import type { LineEntry, LineTable } from '../impedance/lineTable.ts'
import type { Route } from '../routes/route.ts'
import { barrelDelay, BARREL_METHOD, permittivityAlong } from './barrel.ts'
import type { NetSection } from './netSignal.ts'

/** One end of a net: its route and the lines it runs on. */
export interface Breakout {
  readonly route: Route
  /** From the ball outwards: dog-bone, via, neck; what the route has of them. */
  readonly sections: readonly NetSection[]
  readonly neck: LineEntry | undefined
  readonly dogBone: LineEntry | undefined
  readonly main: LineEntry | undefined
}

/** A dog-bone lies on the land's layer with the neck's width, so the neck's line on that layer answers for it. */
export function breakoutOf(
  board: Board,
  lines: LineTable,
  netClass: NetClass,
  pack: Package,
  route: Route,
): Breakout {
  const landLayer = landLayerOf(board, pack)
  const neck = neckLine(lines, netClass, route.exitLayer, route)
  const dogBone = neckLine(lines, netClass, landLayer, route)
  const sections = [
    ...(route.dogBoneLength > 0 ? [dogBoneSection(route, landLayer, dogBone, neck)] : []),
    ...(route.via !== null && route.viaDepth > 0 ? [viaSection(board, landLayer, route)] : []),
    neckSection(route, neck),
  ]
  return { route, sections, neck, dogBone, main: lines.main(netClass.name, route.exitLayer) }
}

/** Copper layer that the package's lands are on. */
export function landLayerOf(board: Board, pack: Package): number {
  return pack.placement.side === 'top' ? 1 : board.stackup.copper.length
}

function neckLine(lines: LineTable, netClass: NetClass, layer: number, route: Route): LineEntry | undefined {
  return (
    lines.neck(netClass.name, layer, route.package, route.gap) ??
    lines.neck(netClass.name, layer, route.package)
  )
}

function neckSection(route: Route, entry: LineEntry | undefined): NetSection {
  const length = Math.max(0, route.neckLength - route.dogBoneLength)
  return {
    kind: 'neck',
    package: route.package,
    layer: route.exitLayer,
    width: entry?.width ?? route.width,
    gap: route.gap,
    length,
    ...lineFigures(entry, length),
  }
}

function dogBoneSection(
  route: Route,
  layer: number,
  entry: LineEntry | undefined,
  neck: LineEntry | undefined,
): NetSection {
  const length = Math.min(route.dogBoneLength, route.neckLength)
  const about = {
    kind: 'dog-bone',
    package: route.package,
    layer,
    width: entry?.width ?? route.width,
    gap: route.gap,
    length,
  } as const
  if (entry?.impedance) return { ...about, ...lineFigures(entry, length) }
  return {
    ...about,
    impedance: null,
    band: null,
    method: 'no line of this class on the layer of the land; delay as on the layer of the neck',
    delay: lineFigures(neck, length).delay,
  }
}

function viaSection(board: Board, landLayer: number, route: Route): NetSection {
  const permittivity = permittivityAlong(board.stackup, landLayer, route.exitLayer)
  return {
    kind: 'via',
    package: route.package,
    layer: route.exitLayer,
    width: null,
    gap: null,
    length: route.viaDepth,
    impedance: null,
    band: null,
    method: BARREL_METHOD,
    delay: barrelDelay(route.viaDepth, permittivity),
  }
}

/** Impedance, band, method and delay of a stretch of a tabulated line. */
export function lineFigures(
  entry: LineEntry | undefined,
  length: number | null,
): Pick<NetSection, 'impedance' | 'band' | 'method' | 'delay'> {
  const line = entry?.impedance ?? null
  const runs = entry?.runs ?? null
  if (line === null || runs === null) {
    return {
      impedance: null,
      band: null,
      method: entry?.refusal ?? 'not among the lines of the review',
      delay: null,
    }
  }
  return {
    impedance: runs.impedance,
    band: runs.band,
    method: `${line.chosen.method.title}${entry?.loaded ? ', loaded by the vias beside' : ''}`,
    delay: length === null ? null : length * runs.delay,
  }
}
