import type { Board } from '../board/board.ts'
import { holesNamed, landLayerOf } from '../board/lookup.ts'
import type { NetClass } from '../board/nets.ts'
import type { Package } from '../board/packages.ts'
import { magnitude } from '../numerics/complex.ts'
import { mainStretch } from '../routes/mainStretch.ts'
import type { Route } from '../routes/route.ts'
import type { Hertz, Ohms, Quantity, Ratio } from '../units/quantity.ts'
import type { Breakout } from './breakout.ts'
import { permittivityAlong } from './barrel.ts'
import { delayOf } from './cascade.ts'
import { edgeLength } from './edge.ts'
import type { LineImpedance } from '../impedance/estimate.ts'
import type { RunningValue, StretchLine } from '../impedance/lineTable.ts'
import { neckBeforeDevice, neckBetweenMain, type NeckCase } from './neckReflection.ts'
import type { EndSignal, PeakReflection, StubSignal } from './netSignal.ts'
import { cascadeMatrix, scatteringOf, type LossySection } from './scattering.ts'
import { longestStub, quarterWaveNull, STUB_LOADING, STUB_RULE_SOURCE } from './stub.ts'

/** Peaks of equal necks, kept because the balls of a bus repeat them. */
export type PeakMemory = Map<string, Pick<EndSignal['reflection'], 'mainBothSides' | 'device'>>

/**
 * What the neck at one end does to the edge; null where the lines of neck or main route are not known.
 *
 * Three figures stand side by side, because each alone misleads: the electrical length says whether the edge
 * resolves the neck at all, the reflection how much comes back, the allowance what the interface's published
 * guide grants. The narrow stretch is neck, via with what hangs of it, and dog-bone; a via that could not be solved is
 * left out of the cascade. The land under the ball counts as part of the device, but for one with a via in it.
 */
export function endSignal(
  board: Board,
  netClass: NetClass,
  pack: Package,
  breakout: Breakout,
  memory: PeakMemory,
): EndSignal | null {
  const { route, main } = breakout
  const own = mainStretch(route)
  const neck = breakout.stretches.find(({ stretch }) => stretch === own)?.line
  if (neck === undefined || !main?.impedance) return null
  const { runs } = neck
  const { riseTime } = netClass.edge
  const stretch = narrowStretch(breakout, neck)
  const neckDelay = delayOf(stretch.filter(({ line }) => line !== null))
  const share = neckDelay / riseTime
  const limit = board.analysis.electricalLengthLimit
  const allowed = netClass.neckAllowance
  return {
    package: route.package,
    ball: route.ball,
    layer: route.exitLayer,
    // The line of the table may be narrower than the route: no neck is wider than its main route.
    width: neck.width,
    gap: route.gap,
    neckImpedance: runs.impedance,
    mainImpedance: main.impedance.impedance,
    neckLength: route.neckLength,
    neckDelay,
    riseTime,
    edgeLength: edgeLength(riseTime, runs.delay),
    electricalLength: { share, limit, limitSource: lengthLimitSource(board), long: share > limit },
    reflection: {
      ...peaks({ main: main.impedance.impedance, sections: stretch, edge: netClass.edge }, netClass, memory),
      ...reflectionLimit(board, netClass),
      atNyquist: atNyquist(stretch, main.impedance.impedance, netClass),
      withoutVia: withoutVia(stretch, main.impedance.impedance, netClass, memory),
    },
    allowance: allowed && { ...allowed, exceeded: route.neckLength > allowed.length },
    stub: stubSignal(board, netClass, pack, route),
  }
}

interface NarrowSection extends LossySection {
  /** Null for the via, which is taken to lose nothing. */
  readonly line: LineImpedance | null
  readonly length: number
}

/** From the main route to the ball. What has no line of its own counts as more of the neck's outer end. */
function narrowStretch({ route, stretches, via, dogBone }: Breakout, neck: StretchLine): NarrowSection[] {
  const section = (
    { impedance, delay }: Pick<RunningValue, 'impedance' | 'delay'>,
    line: LineImpedance,
    length: number,
  ): NarrowSection => ({
    impedance,
    delay: length * delay,
    line,
    length,
  })
  const outside = stretches
    .toReversed()
    .map(({ stretch, line = neck }) => section(line.runs, line.line, stretch.length))
  const { runs, line } = dogBone ?? neck
  const length = Math.min(route.dogBoneLength, route.neckLength)
  return [
    ...outside,
    ...(via === null ? [] : [{ ...via, line: null, length: route.viaDepth }]),
    ...(length > 0 ? [section(runs, line, length)] : []),
  ]
}

function peaks(
  neck: NeckCase,
  netClass: NetClass,
  memory: PeakMemory,
): Pick<EndSignal['reflection'], 'mainBothSides' | 'device'> {
  const { sourceImpedance, loadImpedance } = netClass
  const key = [
    neck.main,
    ...neck.sections.flatMap(({ impedance, delay, hanging }) => [
      impedance,
      delay,
      hanging?.impedance,
      hanging?.delay,
    ]),
    neck.edge.riseTime,
    neck.edge.shape,
    sourceImpedance,
    loadImpedance,
  ].join('|')
  const known = memory.get(key)
  if (known !== undefined) return known
  const found = {
    mainBothSides: neckBetweenMain(neck),
    device: worseDevice(neck, sourceImpedance, loadImpedance),
  }
  memory.set(key, found)
  return found
}

/** The description does not say which way a signal runs, and many run both ways: the worse of source and load. */
function worseDevice(neck: NeckCase, source: Ohms, load: Ohms): PeakReflection & { deviceImpedance: Ohms } {
  const atSource = { ...neckBeforeDevice(neck, source), deviceImpedance: source }
  if (source === load) return atSource
  const atLoad = { ...neckBeforeDevice(neck, load), deviceImpedance: load }
  return Math.abs(atLoad.exact) > Math.abs(atSource.exact) ? atLoad : atSource
}

/** The larger of both peaks of the traces alone; null where no via is among them. */
function withoutVia(
  stretch: readonly NarrowSection[],
  main: Ohms,
  netClass: NetClass,
  memory: PeakMemory,
): Ratio | null {
  const traces = stretch.filter(({ line }) => line !== null)
  if (traces.length === stretch.length) return null
  const { mainBothSides, device } = peaks({ main, sections: traces, edge: netClass.edge }, netClass, memory)
  return Math.abs(device.exact) > Math.abs(mainBothSides.exact) ? device.exact : mainBothSides.exact
}

function atNyquist(
  stretch: readonly NarrowSection[],
  main: Ohms,
  netClass: NetClass,
): EndSignal['reflection']['atNyquist'] {
  const frequency = netClass.dataRate?.nyquist
  if (frequency === undefined) return null
  const sections = stretch.map((section) => ({ ...section, attenuation: attenuationOf(section, frequency) }))
  return { frequency, magnitude: magnitude(scatteringOf(cascadeMatrix(sections, frequency), main).s11) }
}

/** Conductor loss carried to another frequency as its root, dielectric loss in proportion. */
function attenuationOf({ line, length }: NarrowSection, frequency: Hertz): Quantity<'Np'> {
  if (line === null) return 0
  const ratio = frequency / line.loss.frequency
  return length * (line.loss.conductor * Math.sqrt(ratio) + line.loss.dielectric * ratio)
}

function reflectionLimit(board: Board, netClass: NetClass): { limit: number; limitSource: string } {
  if (netClass.reflectionLimit !== null) {
    return {
      limit: netClass.reflectionLimit,
      limitSource:
        assumedSource(netClass.assumed, 'reflection_limit') ?? `class ${netClass.name} of the description`,
    }
  }
  return {
    limit: board.analysis.reflectionLimit,
    limitSource:
      assumedSource(board.analysis.assumed, 'reflection_limit') ?? 'analysis settings of the description',
  }
}

function lengthLimitSource(board: Board): string {
  return (
    assumedSource(board.analysis.assumed, 'electrical_length_limit') ?? 'analysis settings of the description'
  )
}

function assumedSource(assumed: Board['assumptions'], key: string): string | null {
  return assumed.find(({ path }) => path.endsWith(key))?.source ?? null
}

function stubSignal(board: Board, netClass: NetClass, pack: Package, route: Route): StubSignal | null {
  if (!(route.stubLength > 0)) return null
  // Only the last of several holes can hang beyond.
  const via = holesNamed(board, route.via).at(-1)
  if (via === undefined) return null
  const farEnd = landLayerOf(board, pack) <= route.exitLayer ? via.lastLayer : via.firstLayer
  if (farEnd === route.exitLayer) return null
  const permittivity = permittivityAlong(board.stackup, route.exitLayer, farEnd)
  return {
    length: route.stubLength,
    nullFrequency: quarterWaveNull(route.stubLength, permittivity),
    loading: STUB_LOADING,
    nyquist: netClass.dataRate?.nyquist ?? null,
    lengthLimit: netClass.dataRate === null ? null : longestStub(netClass.dataRate),
    limitSource: STUB_RULE_SOURCE,
  }
}
