import { formatFrequency, formatOhms, formatPercent, formatTime } from '../../../units/format.ts'
import type { EndSignal, NetSignal, PeakReflection } from '../../../signal/netSignal.ts'
import { worstPeak } from '../answer.ts'
import type { ReportContext } from '../context.ts'
import { section } from '../section.ts'
import type { Section } from '../section.ts'
import { groupBy, table, verdict } from '../table.ts'
import type { CellText, Table } from '../table.ts'
import { ABSENT, count, lengthRange, list, signed } from '../words.ts'

interface NetEnd {
  readonly signal: NetSignal
  readonly end: EndSignal
}

/** Does the step between neck and main route matter at the net's edge? Three separate answers, no single mark. */
export function discontinuitiesSection(context: ReportContext): Section {
  const ends = context.review.signals.flatMap((signal) => signal.ends.map((end) => ({ signal, end })))
  return section({
    id: 'discontinuities',
    title: 'Discontinuities: neck against main route',
    paragraphs: [
      'Three figures stand side by side because each alone misleads. The electrical length says whether the edge can resolve the neck at all; the reflection says how much of the edge comes back; the published allowance says what the interface’s own guide grants. Nets with the same class, package, layer, width and verdicts share a row; the appendix has every net.',
    ],
    tables: [discontinuityTable(ends, context), ...stubTable(ends, context)],
  })
}

function discontinuityTable(ends: readonly NetEnd[], context: ReportContext): Table {
  return table({
    id: 'discontinuities-table',
    caption: 'Necks, nets with the same figures together',
    columns: [
      'Place',
      'Step, neck to main',
      'Neck length and delay',
      'Edge',
      'Electrical length',
      'Reflection',
      'Published allowance',
    ],
    rows: groupBy(ends, groupKey).map((group) => discontinuityRow(group, context)),
    whenEmpty: 'No net has a neck and a main route of known impedance.',
    notes: [
      'Edge: 10–90 % rise time, and the length it occupies on the layer. Electrical length: neck delay over rise time.',
      'Reflection: peak of the edge that comes back, by the exact cascade of the sections, with short-section theory for comparison. Before the device: the change that the neck makes in front of the real source or load.',
      ...limitSources(ends),
    ],
  })
}

/** Where the limits come from, once for all rows. */
function limitSources(ends: readonly NetEnd[]): string[] {
  const sources = (of: (end: EndSignal) => string): string =>
    list([...new Set(ends.map(({ end }) => of(end)))])
  if (ends.length === 0) return []
  return [
    `Limit on electrical length: ${sources((end) => end.electricalLength.limitSource)}. Limit on reflection: ${sources((end) => end.reflection.limitSource)}.`,
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
  const { width, gap, neckImpedance, mainImpedance } = end
  const { long, reflects, exceeded } = verdictsOf(item)
  return JSON.stringify([
    signal.class,
    end.package,
    end.layer,
    width,
    gap,
    neckImpedance,
    mainImpedance,
    long,
    reflects,
    exceeded,
  ])
}

function discontinuityRow(group: readonly [NetEnd, ...NetEnd[]], context: ReportContext): CellText[] {
  const { length, layerName, unit } = context
  // The longest neck of the group speaks for it: its figures are the worst.
  const worst = group.reduce(
    (longest, each) => (each.end.neckLength > longest.end.neckLength ? each : longest),
    group[0],
  )
  const { signal, end } = worst
  const lengths = group.map((each) => each.end.neckLength)
  const { long, reflects } = verdictsOf(worst)
  const step = (end.mainImpedance - end.neckImpedance) / (end.mainImpedance + end.neckImpedance)
  return [
    {
      text: `${signal.class}, ${end.package} on ${layerName(end.layer)}`,
      notes: [
        `${count(group.length, 'neck')}, ${length(end.width)} wide${end.gap === null ? '' : `, gap ${length(end.gap)}`}`,
        `longest: ${signal.net}`,
      ],
    },
    {
      text: `${formatOhms(end.neckImpedance)} to ${formatOhms(end.mainImpedance)}`,
      note: `step ${signed(step)}`,
    },
    {
      text: lengthRange(Math.min(...lengths), Math.max(...lengths), unit),
      note: `longest ${formatTime(end.neckDelay)}`,
    },
    { text: formatTime(end.riseTime), note: `${length(end.edgeLength)} in space` },
    {
      text: `${formatPercent(end.electricalLength.share)} of the edge`,
      note: `limit ${formatPercent(end.electricalLength.limit)}`,
      verdict: long ? verdict('watch', 'electrically long') : verdict('pass', 'short'),
    },
    reflectionCell(end, reflects),
    allowanceCell(end, length),
  ]
}

function reflectionCell({ reflection }: EndSignal, reflects: boolean): CellText {
  const { mainBothSides, device, limit, atNyquist } = reflection
  const both = ({ exact, shortSection }: PeakReflection): string =>
    `${signed(exact)} (short-section ${signed(shortSection)})`
  return {
    text: `between main routes ${both(mainBothSides)}`,
    notes: [
      `before the device, ${formatOhms(device.deviceImpedance)}: ${both(device)}`,
      ...(atNyquist === null
        ? []
        : [`at Nyquist, ${formatFrequency(atNyquist.frequency)}: ${formatPercent(atNyquist.magnitude)}`]),
      `limit ${formatPercent(limit)}`,
    ],
    verdict: reflects ? verdict('fail', 'over the limit') : verdict('pass', 'within the limit'),
  }
}

function allowanceCell({ allowance }: EndSignal, length: (metres: number) => string): CellText {
  if (allowance === null)
    return { text: 'none found', note: 'no published figure is known for this interface' }
  return {
    text: length(allowance.length),
    note: allowance.source,
    verdict: allowance.exceeded ? verdict('fail', 'longer than allowed') : verdict('pass', 'within'),
  }
}

function stubTable(ends: readonly NetEnd[], { length, layerName }: ReportContext): Table[] {
  const withStub = ends.filter(({ end }) => end.stub !== null)
  if (withStub.length === 0) return []
  const key = ({ signal, end }: NetEnd): string =>
    JSON.stringify([signal.class, end.package, end.layer, end.stub])
  return [
    table({
      id: 'stubs-table',
      caption: 'Via stubs: barrel that hangs beyond the exit layer',
      columns: ['Place', '#Nets', '#Stub', '#First null', '#Nyquist', '#Limit', 'Verdict'],
      rows: groupBy(withStub, key).flatMap((group) => {
        const [{ signal, end }] = group
        if (end.stub === null) return []
        const { length: stub, nullFrequency, nyquist, lengthLimit, limitSource } = end.stub
        return [
          [
            `${signal.class}, ${end.package} on ${layerName(end.layer)}`,
            String(group.length),
            length(stub),
            formatFrequency(nullFrequency),
            nyquist === null ? ABSENT : formatFrequency(nyquist),
            lengthLimit === null ? ABSENT : { text: length(lengthLimit), note: limitSource },
            lengthLimit === null
              ? 'no data rate, no limit'
              : {
                  text: '',
                  verdict: stub > lengthLimit ? verdict('fail', 'too long') : verdict('pass', 'within'),
                },
          ],
        ]
      }),
    }),
  ]
}
