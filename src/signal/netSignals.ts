import type { Board } from '../board/board.ts'
import type { Net, NetClass } from '../board/nets.ts'
import type { Package } from '../board/packages.ts'
import type { LineImpedance } from '../impedance/estimate.ts'
import type { LineTable } from '../impedance/lineTable.ts'
import type { ViaTable } from '../impedance/viaLine.ts'
import { groupBy } from '../numerics/groupBy.ts'
import type { Route } from '../routes/route.ts'
import type { Assumption } from '../units/assumption.ts'
import type { Metres } from '../units/quantity.ts'
import { breakoutOf, lineFigures, type Breakout } from './breakout.ts'
import { reflectionAt } from './cascade.ts'
import { endSignal, type PeakMemory } from './endSignal.ts'
import type { LayerLength, NetSection, NetSignal, Step } from './netSignal.ts'

/**
 * Every net that has a route, in the order of the description, as its sections in series: from the first
 * ball that has one outwards, the main route, and into the second.
 *
 * Where the two ends leave on different layers, the main route is taken to run on the first end's layer, and
 * that is put among the net's assumptions: the layer change between them is not described.
 */
export function netSignals(
  board: Board,
  routes: readonly Route[],
  lines: LineTable,
  vias: ViaTable,
): NetSignal[] {
  const classes = new Map(board.classes.map((netClass) => [netClass.name, netClass]))
  const packages = new Map(board.packages.map((pack) => [pack.name, pack]))
  const routesOf = groupBy(routes, (route) => route.net)
  const memory: PeakMemory = new Map()
  return board.nets.flatMap((net) => {
    const netClass = classes.get(net.class)
    const own = routesOf.get(net.name)
    if (netClass === undefined || own === undefined) return []
    const ends = inOrderOfPins(net, own).flatMap((route) => {
      const pack = packages.get(route.package)
      return pack === undefined
        ? []
        : [{ pack, breakout: breakoutOf(board, lines, vias, netClass, pack, route) }]
    })
    return [signalOf(board, net, netClass, ends, memory)]
  })
}

interface End {
  readonly pack: Package
  readonly breakout: Breakout
}

function inOrderOfPins(net: Net, routes: readonly Route[]): readonly Route[] {
  const rank = new Map(net.pins.map((pin, index) => [JSON.stringify([pin.package, pin.ball]), index]))
  const rankOf = (route: Route): number => rank.get(JSON.stringify([route.package, route.ball])) ?? Infinity
  return routes.length < 2 ? routes : [...routes].sort((a, b) => rankOf(a) - rankOf(b))
}

function signalOf(
  board: Board,
  net: Net,
  netClass: NetClass,
  ends: readonly End[],
  memory: PeakMemory,
): NetSignal {
  const [first, ...others] = ends.map(({ breakout }) => breakout)
  const length = mainLengthOf(net, netClass)
  const main = first === undefined ? [] : [mainSection(first, netClass, length)]
  const sections = [
    ...(first?.sections ?? []),
    ...main,
    ...others.flatMap((other) => [...other.sections].reverse()),
  ]
  return {
    net: net.name,
    class: netClass.name,
    structure: netClass.structure,
    sections,
    steps: stepsOf(sections),
    ends: ends.flatMap(({ pack, breakout }) => endSignal(board, netClass, pack, breakout, memory) ?? []),
    perLayer: perLayer(sections),
    totalLength: sections.reduce((sum, section) => sum + (section.length ?? 0), 0),
    totalDelay: sections.reduce(
      (sum, { delay, hanging }) => sum + (delay ?? 0) + (hanging?.loadingDelay ?? 0),
      0,
    ),
    breakoutOnly: length === null,
    assumed: assumptionsOf(net, netClass, ends),
  }
}

/** The net's own, or what its class gives for all of them. */
function mainLengthOf(net: Net, netClass: NetClass): Metres | null {
  return net.mainLength ?? netClass.main.length
}

function mainSection({ main, route }: Breakout, netClass: NetClass, length: Metres | null): NetSection {
  return {
    kind: 'main',
    package: null,
    layer: route.exitLayer,
    width: main?.width ?? null,
    gap: main?.gap ?? netClass.main.gap,
    length,
    hanging: null,
    ...lineFigures(main, length),
  }
}

/** Joints between two traces: a barrel is too short to be a step by itself. */
function stepsOf(sections: readonly NetSection[]): Step[] {
  return sections.flatMap((section, index) => {
    const next = sections[index + 1]
    if (next === undefined || section.kind === 'via' || next.kind === 'via') return []
    if (section.impedance === null || next.impedance === null) return []
    return [
      {
        from: labelOf(section),
        to: labelOf(next),
        layer: next.layer,
        impedanceFrom: section.impedance,
        impedanceTo: next.impedance,
        reflection: reflectionAt(section.impedance, next.impedance),
      },
    ]
  })
}

function labelOf(section: NetSection): string {
  return section.package === null ? 'main route' : `${section.kind} at ${section.package}`
}

function perLayer(sections: readonly NetSection[]): LayerLength[] {
  const layers = new Map<number, LayerLength>()
  for (const { kind, layer, length, delay } of sections) {
    if (kind === 'via' || length === null) continue
    const sum = layers.get(layer) ?? { layer, length: 0, delay: 0 }
    layers.set(layer, { layer, length: sum.length + length, delay: sum.delay + (delay ?? 0) })
  }
  return [...layers.values()].sort((a, b) => a.layer - b.layer)
}

function assumptionsOf(net: Net, netClass: NetClass, ends: readonly End[]): Assumption[] {
  const lines = ends.flatMap(({ breakout: { neck, dogBone, main } }) => [
    neck?.impedance,
    dogBone?.line,
    main?.impedance,
  ])
  const vias = ends.flatMap(({ breakout: { via } }) => via?.assumed ?? [])
  const rest = new Set([...net.assumed, ...netClass.assumed, ...lines.flatMap(sectionAssumptions), ...vias])
  const [first, second] = ends.map(({ breakout }) => breakout.route.exitLayer)
  if (first === undefined || second === undefined || first === second) return [...rest]
  const layer: Assumption = {
    path: `nets.${net.name}`,
    quantity: `layer of the main route of ${net.name}, whose ends leave on layers ${first} and ${second}`,
    value: `layer ${first}`,
    source: 'the layer of its first end; the layer change is not described',
  }
  return [...rest, layer]
}

function sectionAssumptions(line: LineImpedance | null | undefined): readonly Assumption[] {
  return line?.section.assumed ?? []
}
