import type { Board } from '../../src/board/board.ts'
import type { Edge, NetClass } from '../../src/board/nets.ts'
import type { Stackup } from '../../src/board/stackup.ts'
import type { Estimate, LineImpedance } from '../../src/impedance/estimate.ts'
import type { Metres } from '../../src/units/quantity.ts'
import {
  type LineEntry,
  type LineTable,
  type StretchLine,
  runningValue,
} from '../../src/impedance/lineTable.ts'
import type { ViaTable } from '../../src/impedance/viaLine.ts'
import type { Route } from '../../src/routes/route.ts'
import type { CrossSection, DielectricSheet, LineRequest } from '../../src/section/crossSection.ts'
import { deriveSection } from '../../src/section/deriveSection.ts'

export const um = (value: number): number => value * 1e-6
export const ps = (value: number): number => value * 1e-12
const LIGHT = 299_792_458

/**
 * A line model simple enough to invert by hand, for tests of the stages after the impedance: with H the
 * parallel combination of the distances to the planes (one plane: that distance),
 *
 *     Z = 60/√εr · ln(1 + 5 H/w),   differential 2 Z (1 − e^(−gap/H)/2),   delay √εr/c
 */
export function modelLine(section: CrossSection): LineImpedance {
  const distance = (sheets: readonly DielectricSheet[]): number =>
    sheets.reduce((sum, sheet) => sum + sheet.thickness, 0)
  const below = distance(section.below)
  const height = section.structure === 'stripline' ? 1 / (1 / below + 1 / distance(section.above)) : below
  const permittivity = section.below[0]?.permittivity.relative ?? NaN
  const single = (60 / Math.sqrt(permittivity)) * Math.log(1 + (5 * height) / section.trace.width)
  const odd = section.gap === null ? single : single * (1 - Math.exp((-1 * section.gap) / height) / 2)
  return lineWith({ section, impedance: odd, permittivity, pair: section.gap !== null })
}

interface LineDraft {
  readonly section: CrossSection
  /** Of one trace. */
  readonly impedance: number
  readonly permittivity: number
  readonly pair: boolean
  readonly violations?: Estimate['violations']
}

export function lineWith({
  section,
  impedance,
  permittivity,
  pair,
  violations = [],
}: LineDraft): LineImpedance {
  const mode = { impedance, effectivePermittivity: permittivity }
  const delay = Math.sqrt(permittivity) / LIGHT
  const verdict = pair ? 2 * impedance : impedance
  return {
    section,
    frequency: 1e9,
    chosen: {
      method: {
        kind: 'closed form',
        id: 'model',
        title: 'model of the tests',
        source: 'none',
        ownFit: false,
        limits: [],
      },
      modes: pair ? { kind: 'pair', even: mode, odd: mode } : { kind: 'single', line: mode },
      claimedError: 0.02,
      errorBasis: 'none',
      violations,
    },
    others: [],
    closedFormDifference: null,
    impedance: verdict,
    common: pair ? impedance / 2 : null,
    effectivePermittivity: permittivity,
    delay,
    capacitance: delay / verdict,
    inductance: delay * verdict,
    loss: {
      frequency: 1e9,
      conductor: 0.5,
      dielectric: 0.2,
      roughnessFactor: 1,
      method: 'model of the tests',
    },
  }
}

export function modelLineOn(stackup: Stackup, request: LineRequest): LineImpedance {
  return modelLine(deriveSection(stackup, request))
}

/** Width at which the model meets a target; null where none from 20 um to 3 mm does. */
export function modelWidth(stackup: Stackup, request: LineRequest, target: number): number | null {
  const at = (width: number): number => modelLineOn(stackup, { ...request, width }).impedance
  const [narrowest, widest] = [um(30), 3e-3]
  if (at(narrowest) < target || at(widest) > target) return null
  let [low, high] = [narrowest, widest]
  for (let step = 0; step < 80; step += 1) {
    const middle = (low + high) / 2
    if (at(middle) > target) low = middle
    else high = middle
  }
  return low
}

/** Vias that are not known, for what can be reckoned by hand without them. */
export const NO_VIAS: ViaTable = { of: () => null, drilledBack: () => null }

/** The lines that routes need, by the model: mains solved for the target unless given, necks as routed. */
export function modelTable(board: Board, routes: readonly Route[]): LineTable {
  const layers = board.stackup.copper.filter((layer) => layer.role !== 'plane').map((layer) => layer.number)
  const classes = new Map(board.classes.map((netClass) => [netClass.name, netClass]))
  const classOf = new Map(board.nets.map((net) => [net.name, classes.get(net.class)]))
  const mains = board.classes.flatMap((netClass) =>
    layers.map((layer): LineEntry => {
      const used = routes.some((route) => route.exitLayer === layer && classOf.get(route.net) === netClass)
      return mainEntry(board, netClass, layer, used)
    }),
  )
  const necks = routes.flatMap((route) => {
    const netClass = classOf.get(route.net)
    if (netClass === undefined) return []
    return layers.map((layer) => neckEntry(board, netClass, route, layer))
  })
  // What a route uses comes last, so that it wins over the same line looked at for other layers.
  const byLine = new Map<string, LineEntry>()
  for (const neck of necks.sort((a, b) => Number(a.used) - Number(b.used))) {
    byLine.set([neck.netClass, neck.package, neck.layer, neck.gap === null].join('|'), neck)
  }
  return lineTable([...mains, ...byLine.values()], routes, (net) => classOf.get(net)?.name)
}

/** Of two entries of one line the later wins. Stretches of the routes run on the table's necks, lead-ins included. */
export function lineTable(
  entries: readonly LineEntry[],
  routes: readonly Route[] = [],
  classOf: (net: string) => string | undefined = () => undefined,
): LineTable {
  const routeOf = new Map(routes.flatMap((each) => each.stretches.map((stretch) => [stretch, each])))
  const last = (test: (entry: LineEntry) => boolean): LineEntry | undefined => entries.findLast(test)
  const stretchOn = (owner: Route, layer: number, gap: Metres | null): StretchLine | undefined => {
    const netClass = classOf(owner.net)
    const entry = last(
      (each) =>
        each.stretch === 'neck' &&
        each.layer === layer &&
        each.package === owner.package &&
        (layer === 1 || (each.gap === null) === (gap === null)) &&
        (netClass === undefined || each.netClass === netClass),
    )
    if (!entry?.impedance || entry.runs === null || entry.width === null) return undefined
    return { line: entry.impedance, width: entry.width, loaded: entry.loaded, runs: entry.runs }
  }
  return {
    entries,
    along: (stretch) => {
      const owner = routeOf.get(stretch)
      return owner && stretchOn(owner, owner.exitLayer, owner.gap)
    },
    dogBone: (owner) => (owner.dogBoneLength > 0 ? stretchOn(owner, 1, null) : undefined),
    neck: (netClass, layer, packageName, gap) =>
      last(
        (entry) =>
          entry.stretch === 'neck' &&
          entry.netClass === netClass &&
          entry.layer === layer &&
          entry.package === packageName &&
          (gap === undefined || (gap === null) === (entry.gap === null)),
      ),
    main: (netClass, layer) =>
      last((entry) => entry.stretch === 'main' && entry.netClass === netClass && entry.layer === layer),
  }
}

function mainEntry(board: Board, netClass: NetClass, layer: number, used: boolean): LineEntry {
  const gap = netClass.structure === 'pair' ? netClass.main.gap : null
  const request = { layer, width: 0, gap, coplanarGap: null, broadsideLayer: null }
  const width = netClass.main.width ?? modelWidth(board.stackup, request, netClass.target)
  const impedance = width === null ? null : modelLineOn(board.stackup, { ...request, width })
  return {
    netClass: netClass.name,
    layer,
    stretch: 'main',
    package: null,
    width,
    gap,
    widthBasis: netClass.main.width === null ? 'solved for the target' : 'given',
    impedance,
    passage: null,
    loaded: null,
    range: null,
    mostLoaded: null,
    runs: impedance && runningValue(impedance, null),
    refusal: width === null ? 'no width reaches the target' : null,
    used,
  }
}

function neckEntry(board: Board, netClass: NetClass, route: Route, layer: number): LineEntry {
  const { gap } = route
  const width = Math.min(route.width, mainEntry(board, netClass, layer, false).width ?? Infinity)
  const line = modelLineOn(board.stackup, { layer, width, gap, coplanarGap: null, broadsideLayer: null })
  const impedance =
    netClass.structure === 'pair' && gap === null
      ? lineWith({
          section: line.section,
          impedance: line.impedance,
          permittivity: line.effectivePermittivity,
          pair: true,
        })
      : line
  return {
    netClass: netClass.name,
    layer,
    stretch: 'neck',
    package: route.package,
    width,
    gap,
    widthBasis: netClass.neck.width === null ? 'widest that fits the channel' : 'given',
    impedance,
    passage: null,
    loaded: null,
    range: null,
    mostLoaded: null,
    runs: runningValue(impedance, null),
    refusal: null,
    used: layer === route.exitLayer,
  }
}

/** The same with a neck of another length, dog-bone included. */
export function withNeckLength(whole: Route, neckLength: number): Route {
  const length = neckLength - whole.dogBoneLength
  return { ...whole, neckLength, stretches: [{ coupled: whole.gap !== null, length, beside: [] }] }
}

export function route(change: Partial<Route> & Pick<Route, 'net' | 'ball'>): Route {
  const whole: Omit<Route, 'stretches'> & Partial<Route> = {
    package: 'U1',
    exitLayer: 3,
    via: 'through via',
    path: [],
    neckLength: 3e-3,
    dogBoneLength: 0.566e-3,
    width: um(80),
    gap: null,
    viaDepth: um(220),
    stubLength: um(650),
    uncoupledLength: null,
    leaves: 'top',
    ring: 2,
    ...change,
  }
  const length = whole.neckLength - whole.dogBoneLength
  return { stretches: [{ coupled: whole.gap !== null, length, beside: [] }], ...whole }
}

/** The board with its classes changed one by one. */
export function withClass(board: Board, name: string, change: Partial<NetClass>): Board {
  if (!board.classes.some((netClass) => netClass.name === name)) throw new RangeError(`no class ${name}`)
  return {
    ...board,
    classes: board.classes.map((netClass) =>
      netClass.name === name ? { ...netClass, ...change } : netClass,
    ),
  }
}

export function withNet(board: Board, name: string, change: Partial<Board['nets'][number]>): Board {
  if (!board.nets.some((net) => net.name === name)) throw new RangeError(`no net ${name}`)
  return { ...board, nets: board.nets.map((net) => (net.name === name ? { ...net, ...change } : net)) }
}

export function gaussian(riseTimePs: number): Edge {
  return { riseTime: ps(riseTimePs), shape: 'gaussian', basis: `${riseTimePs} ps, 10–90 %, Gaussian` }
}
