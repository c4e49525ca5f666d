import type { Board } from '../board/board.ts'
import type { NetClass } from '../board/nets.ts'
import type { Package } from '../board/packages.ts'
import type { LineImpedance } from '../impedance/estimate.ts'
import type { LineEntry, LineTable, StretchLine } from '../impedance/lineTable.ts'
import type { NeckStretch, Route } from '../routes/route.ts'
import { barrelDelay, BARREL_METHOD, permittivityAlong } from './barrel.ts'
import type { NetSection } from './netSignal.ts'

/** One end of a net: its route and the lines it runs on. */
export interface Breakout {
  readonly route: Route
  /** From the ball outwards: dog-bone, via, neck in one or two stretches; what the route has of them. */
  readonly sections: readonly NetSection[]
  /** The neck's stretches from the ball outwards, each with its line. */
  readonly stretches: readonly StretchOfNeck[]
  readonly neck: LineEntry | undefined
  readonly dogBone: LineEntry | undefined
  readonly main: LineEntry | undefined
}

export interface StretchOfNeck {
  readonly stretch: NeckStretch
  readonly line: StretchLine | undefined
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
  const stretches = route.stretches.map((stretch) => ({ stretch, line: lines.along(stretch) }))
  const sections = [
    ...(route.dogBoneLength > 0 ? [dogBoneSection(route, landLayer, dogBone, neck)] : []),
    ...(route.via !== null && route.viaDepth > 0 ? [viaSection(board, landLayer, route)] : []),
    ...stretches.map((each) => neckSection(route, each, neck)),
  ]
  return { route, sections, stretches, neck, dogBone, main: lines.main(netClass.name, route.exitLayer) }
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

function neckSection(
  route: Route,
  { stretch, line }: StretchOfNeck,
  neck: LineEntry | undefined,
): NetSection {
  const { length, coupled } = stretch
  return {
    kind: 'neck',
    package: route.package,
    layer: route.exitLayer,
    width: line?.width ?? route.width,
    gap: coupled ? route.gap : null,
    length,
    ...(line === undefined
      ? { impedance: null, band: null, method: neck?.refusal ?? UNKNOWN_LINE, delay: null }
      : {
          impedance: line.runs.impedance,
          band: line.runs.band,
          method: methodOf(line.line, line.loaded !== null),
          delay: length * line.runs.delay,
        }),
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
      method: entry?.refusal ?? UNKNOWN_LINE,
      delay: null,
    }
  }
  return {
    impedance: runs.impedance,
    band: runs.band,
    method: methodOf(line, Boolean(entry?.loaded)),
    delay: length === null ? null : length * runs.delay,
  }
}

const UNKNOWN_LINE = 'not among the lines of the review'

function methodOf(line: LineImpedance, loaded: boolean): string {
  return `${line.chosen.method.title}${loaded ? ', loaded by what stands beside' : ''}`
}
