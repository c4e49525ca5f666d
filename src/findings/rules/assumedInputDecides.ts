import type { NetClass } from '../../board/nets.ts'
import type { DielectricLayer, Stackup } from '../../board/stackup.ts'
import type { LineEntry } from '../../impedance/lineTable.ts'
import type { Assumption } from '../../units/assumption.ts'
import { boardIndex } from '../boardIndex.ts'
import type { FindingContext } from '../context.ts'
import type { Finding } from '../finding.ts'
import { targetSource } from '../lineRemedies.ts'
import { count, fraction, metres, seconds } from '../measure.ts'
import { caseOf, neckGroups, necksOn, peakOfEnd, triedPeak, worstBy, type NeckEnd } from '../neckEnds.ts'
import { requestOf, tryLineOn } from '../trials.ts'
import { turnedVerdicts, type AssumedInput, type Judged } from '../verdictTurn.ts'

/**
 * An input that the description leaves out and whose plausible range holds another verdict: the tolerance of a
 * main route, or the reflection of a neck, passes at one end of the range and fails at the other. A warning.
 *
 * Varied one at a time: the permittivity of a dielectric and its thickness, each by the larger of its own
 * tolerance and ± 10 %; the rise time of a class by ± 30 %. The ranges are common practice, no source: data
 * sheets of ordinary FR-4 run from 3.6 to 4.6 by glass style.
 *
 * The remedy is to state the value; its figure is the one at which the verdict turns.
 */
export function assumedInputDecides(context: FindingContext): Finding[] {
  return [...dielectricsDecide(context), ...edgesDecide(context)]
}

const DIELECTRIC_RANGE = 0.1
const RISE_TIME_RANGE = 0.3

function dielectricsDecide(context: FindingContext): Finding[] {
  const { classes } = boardIndex(context)
  const pairs = context.lines.entries.flatMap((entry) => {
    const netClass = classes.get(entry.netClass)
    if (netClass === undefined || entry.impedance === null || !entry.used) return []
    return assumedSheets(context, entry).flatMap(({ part, assumption, quantity }) => {
      const onStackup = (factor: number): Stackup => varied(context.board.stackup, part, quantity, factor)
      const judged =
        entry.stretch === 'main'
          ? judgedMain(context, entry, netClass, onStackup)
          : judgedNeck(context, entry, netClass, onStackup)
      return judged === null ? [] : [{ input: sheetInput(part, assumption, quantity), judged }]
    })
  })
  return turnedVerdicts(pairs)
}

type SheetQuantity = 'permittivity' | 'thickness'

interface AssumedSheet {
  readonly part: DielectricLayer
  readonly assumption: Assumption
  readonly quantity: SheetQuantity
}

/** Dielectrics that the line's field is in and whose value was filled in; a tolerance filled in does not count. */
function assumedSheets(context: FindingContext, entry: LineEntry): AssumedSheet[] {
  const section = entry.impedance?.section
  if (section === undefined) return []
  const names = new Set([...section.below, ...section.above].map((sheet) => sheet.name))
  return context.board.stackup.layers.flatMap((part) => {
    if (part.kind !== 'dielectric' || !names.has(part.name)) return []
    return part.assumed.flatMap((assumption): AssumedSheet[] => {
      if (assumption.path.endsWith('.permittivity')) return [{ part, assumption, quantity: 'permittivity' }]
      const thickness = /\.(thickness|above|below)$|\.plies/.test(assumption.path)
      return thickness ? [{ part, assumption, quantity: 'thickness' }] : []
    })
  })
}

function sheetInput(part: DielectricLayer, assumption: Assumption, quantity: SheetQuantity): AssumedInput {
  return quantity === 'permittivity'
    ? {
        assumption,
        range: Math.max(DIELECTRIC_RANGE, part.permittivity.tolerance),
        measure: (factor) => count(`permittivity of ${part.name}`, part.permittivity.relative * factor),
      }
    : {
        assumption,
        range: Math.max(DIELECTRIC_RANGE, part.thicknessTolerance),
        measure: (factor) => metres(`thickness of ${part.name}`, part.thickness * factor),
      }
}

function varied(stackup: Stackup, part: DielectricLayer, quantity: SheetQuantity, factor: number): Stackup {
  const { permittivity } = part
  const changed: DielectricLayer =
    quantity === 'permittivity'
      ? { ...part, permittivity: { ...permittivity, relative: Math.max(1, permittivity.relative * factor) } }
      : { ...part, thickness: part.thickness * factor }
  return { ...stackup, layers: stackup.layers.map((each) => (each === part ? changed : each)) }
}

/** How far a main route is from its target, against its tolerance. */
function judgedMain(
  context: FindingContext,
  entry: LineEntry,
  netClass: NetClass,
  onStackup: (factor: number) => Stackup,
): Judged | null {
  const request = requestOf(entry, netClass)
  if (request === null) return null
  const miss = (factor: number): number | null => {
    const line = tryLineOn(context, onStackup(factor), netClass, request)
    return line && Math.abs(line.impedance / netClass.target - 1)
  }
  const nominal = miss(1)
  if (nominal === null) return null
  return {
    netClass,
    layer: entry.layer,
    package: null,
    nominal,
    limit: netClass.tolerance,
    limitSource: targetSource(netClass),
    figure: (value) => fraction('deviation of the main route from its target', value),
    at: miss,
  }
}

/** The reflection of the worst neck on a line; its main route is solved anew unless its width is given. */
function judgedNeck(
  context: FindingContext,
  entry: LineEntry,
  netClass: NetClass,
  onStackup: (factor: number) => Stackup,
): Judged | null {
  const request = requestOf(entry, netClass)
  const necks = necksOn(context, netClass.name, entry.package, entry.layer, entry.gap)
  const worst = worstBy(necks, peakOfEnd)
  const main = context.lines.main(netClass.name, entry.layer)
  if (request === null || worst === undefined || !main?.impedance || entry.runs === null) return null
  const mainRequest = main.widthBasis === 'given' ? requestOf(main, netClass) : null
  const own = entry.runs
  const at = (factor: number): number | null => {
    const stackup = onStackup(factor)
    const line = tryLineOn(context, stackup, netClass, request)
    const mainLine = mainRequest && tryLineOn(context, stackup, netClass, mainRequest)
    if (line === null || (mainRequest !== null && mainLine === null)) return null
    const neck = caseOf(worst)
    const sections = neck.sections.map((section, index) =>
      index === 0 ? { impedance: line.impedance, delay: section.delay * (line.delay / own.delay) } : section,
    )
    return triedPeak(context, netClass, { ...neck, main: mainLine?.impedance ?? neck.main, sections })
  }
  return {
    netClass,
    layer: entry.layer,
    package: entry.package,
    nominal: peakOfEnd(worst.end),
    limit: worst.end.reflection.limit,
    limitSource: worst.end.reflection.limitSource,
    figure: (value) => fraction('peak reflection of the neck', value),
    at,
  }
}

function edgesDecide(context: FindingContext): Finding[] {
  const pairs = neckGroups(context).flatMap((group) => {
    const worst = worstBy(group, peakOfEnd)
    const assumption = worst?.netClass.assumed.find(({ path }) => path.endsWith('.edge'))
    if (worst === undefined || assumption === undefined) return []
    return [{ input: edgeInput(worst, assumption), judged: judgedEdge(context, worst) }]
  })
  return turnedVerdicts(pairs)
}

function edgeInput({ netClass }: NeckEnd, assumption: Assumption): AssumedInput {
  return {
    assumption,
    range: RISE_TIME_RANGE,
    measure: (factor) => seconds('rise time, 10–90 %', netClass.edge.riseTime * factor),
  }
}

function judgedEdge(context: FindingContext, worst: NeckEnd): Judged {
  const { end, netClass } = worst
  const neck = caseOf(worst)
  return {
    netClass,
    layer: end.layer,
    package: end.package,
    nominal: peakOfEnd(end),
    limit: end.reflection.limit,
    limitSource: end.reflection.limitSource,
    figure: (value) => fraction('peak reflection of the neck', value),
    at: (factor) =>
      triedPeak(context, netClass, {
        ...neck,
        edge: { ...neck.edge, riseTime: neck.edge.riseTime * factor },
      }),
  }
}
