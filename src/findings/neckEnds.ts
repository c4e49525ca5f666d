import type { NetClass } from '../board/nets.ts'
import { groupBy } from '../numerics/groupBy.ts'
import type { UniformLine } from '../signal/cascade.ts'
import type { NeckCase } from '../signal/neckReflection.ts'
import type { EndSignal, NetSection, NetSignal } from '../signal/netSignal.ts'
import type { Metres, Ohms, Ratio } from '../units/quantity.ts'
import { boardIndex } from './boardIndex.ts'
import type { FindingContext } from './context.ts'
import type { Finding } from './finding.ts'

/** One neck, with the net it belongs to. */
export interface NeckEnd {
  readonly signal: NetSignal
  readonly end: EndSignal
  readonly netClass: NetClass
}

/** Necks that are alike but for their length: same class, package, layer, coupled or apart. */
export function neckGroups(context: FindingContext): NeckEnd[][] {
  const known = memory.get(context)
  if (known !== undefined) return known
  const { classes } = boardIndex(context)
  const ends = context.signals.flatMap((signal) => {
    const netClass = classes.get(signal.class)
    return netClass === undefined ? [] : signal.ends.map((end) => ({ signal, end, netClass }))
  })
  const groups = [
    ...groupBy(ends, ({ netClass, end }) => keyOf(netClass.name, end.package, end.layer, end.gap)).values(),
  ]
  memory.set(context, groups)
  return groups
}

const memory = new WeakMap<FindingContext, NeckEnd[][]>()

/** Necks of one line of the table. */
export function necksOn(
  context: FindingContext,
  netClass: string,
  packageName: string | null,
  layer: number,
  gap: Metres | null,
): NeckEnd[] {
  const key = keyOf(netClass, packageName ?? '', layer, gap)
  return (
    neckGroups(context).find(([first]) => {
      if (first === undefined) return false
      return keyOf(first.netClass.name, first.end.package, first.end.layer, first.end.gap) === key
    }) ?? []
  )
}

function keyOf(netClass: string, packageName: string, layer: number, gap: Metres | null): string {
  return [netClass, packageName, layer, gap === null ? 'apart' : 'coupled'].join('|')
}

/** The larger of what the neck sends back between main routes and what it changes before the device. */
export function peakOfEnd({ reflection }: EndSignal): Ratio {
  return Math.max(Math.abs(reflection.mainBothSides.exact), Math.abs(reflection.device.exact))
}

/**
 * What a neck's reflection means for the edge:
 *
 * - small: within its limit, however long the neck is;
 * - granted: above the limit, but the neck keeps within the length that the interface's published guide
 *   allows, and guides approve large steps (AMD UG583 runs 50 ohm necks into 39 ohm main routes);
 * - large: above the limit, and nothing grants it.
 */
export type NeckEffect = 'small' | 'granted' | 'large'

export function neckEffect(end: EndSignal): NeckEffect {
  if (peakOfEnd(end) <= end.reflection.limit) return 'small'
  return end.allowance !== null && !end.allowance.exceeded ? 'granted' : 'large'
}

/** Twice the limit is out of the question; a limit that the class states itself binds even inside an allowance. */
export function effectSeverity({ end, netClass }: NeckEnd): Finding['severity'] {
  const effect = neckEffect(end)
  if (effect === 'small') return 'note'
  if (effect === 'granted') return netClass.reflectionLimit === null ? 'note' : 'warning'
  return peakOfEnd(end) > 2 * end.reflection.limit ? 'error' : 'warning'
}

/** The worst of several ends by a figure of merit; undefined of none. */
export function worstBy(ends: readonly NeckEnd[], figure: (end: EndSignal) => number): NeckEnd | undefined {
  let worst: NeckEnd | undefined
  for (const each of ends) if (worst === undefined || figure(each.end) > figure(worst.end)) worst = each
  return worst
}

/** The narrow stretch of an end as its own sections, from the main route to the ball, its via among them. */
export function narrowSections({ signal, end }: NeckEnd): NetSection[] {
  const main = signal.sections.findIndex(({ kind }) => kind === 'main')
  const sides = [signal.sections.slice(0, main).reverse(), signal.sections.slice(main + 1)]
  const fitting = sides.filter((side) =>
    side.some(
      ({ kind, layer, package: pack }) => kind === 'neck' && layer === end.layer && pack === end.package,
    ),
  )
  // Where both ends are in one package on one layer, their order tells them apart.
  return (fitting.length > 1 ? sides[signal.ends.indexOf(end)] : fitting[0]) ?? []
}

/** A dog-bone whose impedance is not known counts as neck, a via as nothing. */
export function caseOf(neck: NeckEnd): NeckCase {
  const sections = narrowSections(neck).map(({ kind, impedance, delay, hanging }) => ({
    impedance: impedance ?? neck.end.neckImpedance,
    delay: kind === 'via' && impedance === null ? 0 : (delay ?? 0),
    hanging,
  }))
  return { main: neck.end.mainImpedance, sections, edge: neck.netClass.edge }
}

function scaledLine<Line extends UniformLine>(line: Line, factor: Ratio): Line {
  return { ...line, impedance: line.impedance * factor }
}

/** A neck whose traces have their impedance changed by a factor, and its via, with what hangs of it, by another. */
export function scaledCase(neck: NeckEnd, factor: Ratio, viaFactor: Ratio = 1): NeckCase {
  const { sections, ...rest } = caseOf(neck)
  const kinds = narrowSections(neck).map(({ kind }) => kind)
  const scaled = sections.map((section, index) =>
    kinds[index] === 'via'
      ? {
          ...scaledLine(section, viaFactor),
          hanging: section.hanging ? scaledLine(section.hanging, viaFactor) : null,
        }
      : scaledLine(section, factor),
  )
  return { ...rest, sections: scaled }
}

/** `peakOfEnd` of a neck changed for trial. */
export function triedPeak(context: FindingContext, netClass: NetClass, neck: NeckCase): Ratio {
  const devices: Ohms[] = [...new Set([netClass.sourceImpedance, netClass.loadImpedance])]
  return Math.max(
    Math.abs(context.rerun.neckBetweenMain(neck).exact),
    ...devices.map((device) => Math.abs(context.rerun.neckBeforeDevice(neck, device).exact)),
  )
}

/** Names of the other nets, each once. */
export function otherNets(ends: readonly NeckEnd[], worst: NeckEnd): string[] {
  return [...new Set(ends.map(({ signal }) => signal.net))].filter((net) => net !== worst.signal.net)
}
