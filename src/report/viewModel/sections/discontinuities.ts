import { formatFrequency, formatOhms, formatPercent, formatTime } from '../../../units/format.ts'
import type { EndSignal } from '../../../signal/netSignal.ts'
import { worstPeak } from '../answer.ts'
import type { ReportContext } from '../context.ts'
import { section } from '../section.ts'
import type { Section } from '../section.ts'
import { byRanks, groupBy, table, verdict } from '../table.ts'
import type { CellText, Table } from '../table.ts'
import { count, lengthRange, roughLength, signedPercent } from '../words.ts'
import { stubTable, viaTable, type NetEnd } from './viaTables.ts'

/** Does the step between neck and main route matter at the net's edge? Three separate answers, no single mark. */
export function discontinuitiesSection(context: ReportContext): Section {
  const ends = inOrder(context)
  return section({
    id: 'discontinuities',
    title: 'Discontinuities: neck against main route',
    paragraphs: [
      'Three figures stand side by side because each alone misleads. The electrical length says whether the edge can resolve the neck at all; the reflection says how much of the edge comes back; the published allowance says what the interface’s own guide grants. Nets with the same class, package, layer, width and verdicts share a row; the appendix has every net.',
    ],
    tables: [discontinuityTable(ends, context), ...viaTable(ends, context), ...stubTable(ends, context)],
  })
}

/** By class and package as described, then from the top layer down: what belongs together stands together. */
function inOrder({ review }: ReportContext): NetEnd[] {
  const classes = review.board.classes.map((each) => each.name)
  const packages = review.board.packages.map((each) => each.name)
  return review.signals
    .flatMap((signal) => signal.ends.map((end) => ({ signal, end })))
    .sort(
      byRanks(({ signal, end }) => [classes.indexOf(signal.class), packages.indexOf(end.package), end.layer]),
    )
}

function discontinuityTable(ends: readonly NetEnd[], context: ReportContext): Table {
  return table({
    id: 'discontinuities-table',
    caption: 'Necks, nets with the same figures together',
    columns: [
      '>Place',
      'Step, neck to main',
      'Neck length and delay',
      'Edge',
      'Electrical length',
      '>Reflection',
      'Published allowance',
    ],
    rows: groupBy(ends, groupKey).map((group) => discontinuityRow(group, context)),
    whenEmpty: 'No net has a neck and a main route of known impedance.',
    notes: [
      'Edge: 10–90 % rise time, and the length it occupies on the layer. Electrical length: neck delay over rise time.',
      'Reflection: peak of the edge that comes back, between main routes, by the exact cascade of the sections and by short-section theory. Before an impedance: the change that the neck makes in front of the real source or load.',
      'The net’s own via is in the reflections. It acts as a capacitor: it adds to what a low neck sends back and takes from a high one; without it is what neck and dog-bone alone would send back.',
      ...limitSources(ends, context),
    ],
  })
}

/** Where limits and allowances come from, once for all rows. */
function limitSources(ends: readonly NetEnd[], { length }: ReportContext): string[] {
  const distinct = (of: (end: EndSignal) => string | null): string =>
    [...new Set(ends.flatMap(({ end }) => of(end) ?? []))].join('; ')
  if (ends.length === 0) return []
  const allowances = distinct(
    ({ allowance }) => allowance && `${length(allowance.length)}, ${allowance.source}`,
  )
  return [
    `Limit on electrical length: ${distinct((end) => end.electricalLength.limitSource)}. Limit on reflection: ${distinct((end) => end.reflection.limitSource)}.`,
    ...(allowances === '' ? [] : [`Published allowances: ${allowances}.`]),
  ]
}

function verdictsOf({ end }: NetEnd): { long: boolean; reflects: boolean; exceeded: boolean } {
  return {
    long: end.electricalLength.long,
    reflects: Math.abs(worstPeak(end).exact) > end.reflection.limit,
    exceeded: end.allowance?.exceeded === true,
  }
}

function groupKey(item: NetEnd): string {
  const { signal, end } = item
  const { width, gap, mainImpedance } = end
  const { long, reflects, exceeded } = verdictsOf(item)
  return JSON.stringify([
    signal.class,
    end.package,
    end.layer,
    width,
    gap,
    mainImpedance,
    long,
    reflects,
    exceeded,
  ])
}

function discontinuityRow(group: readonly [NetEnd, ...NetEnd[]], context: ReportContext): CellText[] {
  const { length, layerName, unit } = context
  const longest = mostOf(group, ({ neckLength }) => neckLength)
  const reflecting = mostOf(group, (end) => Math.abs(worstPeak(end).exact))
  const { signal, end } = longest
  const lengths = group.map((each) => each.end.neckLength)
  const { long } = verdictsOf(longest)
  const { reflects } = verdictsOf(reflecting)
  const steepest = mostOf(group, (each) => Math.abs(stepOf(each))).end
  return [
    {
      text: `${signal.class}, ${end.package} on ${layerName(end.layer)}`,
      notes: [
        `${count(group.length, 'neck')}, ${length(end.width)} wide${end.gap === null ? '' : `, gap ${length(end.gap)}`}`,
        `longest: ${signal.net}`,
        ...(reflecting === longest ? [] : [`reflects most: ${reflecting.signal.net}`]),
      ],
    },
    {
      text: `${ohmsRange(group.map((each) => each.end.neckImpedance))} to ${formatOhms(end.mainImpedance)}`,
      note: `${group.length > 1 ? 'largest ' : ''}step ${signedPercent(stepOf(steepest))}`,
    },
    {
      text: lengthRange(Math.min(...lengths), Math.max(...lengths), unit),
      note: `longest ${formatTime(end.neckDelay)}`,
    },
    { text: formatTime(end.riseTime), note: `${roughLength(end.edgeLength, unit)} long on the layer` },
    {
      text: `${formatPercent(end.electricalLength.share)} of the edge`,
      note: `limit ${formatPercent(end.electricalLength.limit)}`,
      verdict: long ? verdict('watch', 'electrically long') : verdict('pass', 'short'),
    },
    reflectionCell(reflecting.end, reflects),
    allowanceCell(end, length),
  ]
}

function mostOf(group: readonly [NetEnd, ...NetEnd[]], figure: (end: EndSignal) => number): NetEnd {
  return group.reduce((most, each) => (figure(each.end) > figure(most.end) ? each : most), group[0])
}

/** Reflection coefficient of the step from the neck to the main route. */
function stepOf({ neckImpedance, mainImpedance }: EndSignal): number {
  return (mainImpedance - neckImpedance) / (mainImpedance + neckImpedance)
}

/** `49.4 ohm`, or `49.4–50.0 ohm` where necks differ by what stands beside them. */
function ohmsRange(impedances: readonly number[]): string {
  const [lowest, highest] = [formatOhms(Math.min(...impedances)), formatOhms(Math.max(...impedances))]
  return lowest === highest ? lowest : `${lowest.replace(/ ohm$/, '')}–${highest}`
}

function reflectionCell({ reflection }: EndSignal, reflects: boolean): CellText {
  const { mainBothSides, device, limit, atNyquist, withoutVia } = reflection
  return {
    text: `${signedPercent(mainBothSides.exact)} between main routes`,
    notes: [
      `short-section theory ${signedPercent(mainBothSides.shortSection)}`,
      `${signedPercent(device.exact)} before ${formatOhms(device.deviceImpedance)}, short-section ${signedPercent(device.shortSection)}`,
      ...(atNyquist === null
        ? []
        : [`at Nyquist, ${formatFrequency(atNyquist.frequency)}: ${formatPercent(atNyquist.magnitude)}`]),
      ...(withoutVia === null ? [] : [`${signedPercent(withoutVia)} without its via`]),
      `limit ${formatPercent(limit)}`,
    ],
    verdict: reflects ? verdict('fail', 'over the limit') : verdict('pass', 'within the limit'),
  }
}

function allowanceCell({ allowance }: EndSignal, length: (metres: number) => string): CellText {
  if (allowance === null) return 'none found'
  return {
    text: length(allowance.length),
    verdict: allowance.exceeded ? verdict('fail', 'longer than allowed') : verdict('pass', 'within'),
  }
}
