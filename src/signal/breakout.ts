import type { Board } from '../board/board.ts'
import { landLayerOf } from '../board/lookup.ts'
import type { NetClass } from '../board/nets.ts'
import type { Package } from '../board/packages.ts'
import type { LineImpedance } from '../impedance/estimate.ts'
import type { LineEntry, LineTable, StretchLine } from '../impedance/lineTable.ts'
import { VIA_METHOD, type ViaLine, type ViaTable } from '../impedance/viaLine.ts'
import type { NeckStretch, Route } from '../routes/route.ts'
import type { Metres, Ohms } from '../units/quantity.ts'
import { barrelDelay, BARREL_METHOD, permittivityAlong } from './barrel.ts'
import type { NetSection } from './netSignal.ts'

/** One end of a net: its route and the lines it runs on. */
export interface Breakout {
  readonly route: Route
  /** From the ball outwards: dog-bone, via, neck in one or two stretches; what the route has of them. */
  readonly sections: readonly NetSection[]
  /** The neck's stretches from the ball outwards, each with its line. */
  readonly stretches: readonly StretchOfNeck[]
  /** Null without one, and where it cannot be solved. */
  readonly via: ViaLine | null
  readonly neck: LineEntry | undefined
  readonly dogBone: StretchLine | undefined
  readonly main: LineEntry | undefined
}

export interface StretchOfNeck {
  readonly stretch: NeckStretch
  readonly line: StretchLine | undefined
}

/** A dog-bone lies on the land's layer with the neck's width; the traces of a pair are apart there. */
export function breakoutOf(
  board: Board,
  lines: LineTable,
  vias: ViaTable,
  netClass: NetClass,
  pack: Package,
  route: Route,
): Breakout {
  const landLayer = landLayerOf(board, pack)
  const neck =
    lines.neck(netClass.name, route.exitLayer, route.package, route.gap) ??
    lines.neck(netClass.name, route.exitLayer, route.package)
  const dogBone = lines.dogBone(route)
  const via = vias.of(route)
  const stretches = route.stretches.map((stretch) => ({ stretch, line: lines.along(stretch) }))
  const sections = [
    ...(route.dogBoneLength > 0 ? [dogBoneSection(route, landLayer, dogBone, neck)] : []),
    ...viaSections(board, landLayer, route, via, (stretches[0]?.line ?? dogBone)?.runs.impedance ?? null),
    ...stretches.map((each) => neckSection(route, each, neck)),
  ]
  return { route, sections, stretches, via, neck, dogBone, main: lines.main(netClass.name, route.exitLayer) }
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
    hanging: null,
    ...(line === undefined
      ? { impedance: null, band: null, method: neck?.refusal ?? UNKNOWN_LINE, delay: null }
      : stretchFigures(line, length)),
  }
}

function stretchFigures({ line, loaded, runs }: StretchLine, length: Metres): LineFigures {
  return {
    impedance: runs.impedance,
    band: runs.band,
    method: methodOf(line, loaded !== null),
    delay: length * runs.delay,
  }
}

function dogBoneSection(
  route: Route,
  layer: number,
  dogBone: StretchLine | undefined,
  neck: LineEntry | undefined,
): NetSection {
  const length = Math.min(route.dogBoneLength, route.neckLength)
  const about = {
    kind: 'dog-bone',
    package: route.package,
    layer,
    width: dogBone?.width ?? route.width,
    gap: null,
    length,
    hanging: null,
  } as const
  if (dogBone !== undefined) return { ...about, ...stretchFigures(dogBone, length) }
  return {
    ...about,
    impedance: null,
    band: null,
    method: 'the layer of the land cannot carry its line; delay as on the layer of the neck',
    delay: lineFigures(neck, length).delay,
  }
}

/** None where nothing runs through the hole and nothing hangs that is known. */
function viaSections(
  board: Board,
  landLayer: number,
  route: Route,
  via: ViaLine | null,
  neck: Ohms | null,
): NetSection[] {
  if (route.via === null || (via === null && !(route.viaDepth > 0))) return []
  const about = {
    kind: 'via',
    package: route.package,
    layer: route.exitLayer,
    width: null,
    gap: null,
    length: route.viaDepth,
  } as const
  if (via === null) {
    const permittivity = permittivityAlong(board.stackup, landLayer, route.exitLayer)
    const delay = barrelDelay(route.viaDepth, permittivity)
    return [{ ...about, impedance: null, band: null, method: BARREL_METHOD, delay, hanging: null }]
  }
  const { impedance, band, delay, hanging } = via
  const loadingDelay = ((neck ?? impedance) / 2) * (hanging.delay / hanging.impedance)
  return [{ ...about, impedance, band, method: VIA_METHOD, delay, hanging: { ...hanging, loadingDelay } }]
}

type LineFigures = Pick<NetSection, 'impedance' | 'band' | 'method' | 'delay'>

/** Impedance, band, method and delay of a stretch of a tabulated line. */
export function lineFigures(entry: LineEntry | undefined, length: Metres | null): LineFigures {
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
