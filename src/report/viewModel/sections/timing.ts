import { formatDelayPerLength, formatTime } from '../../../units/format.ts'
import type { NetSignal, Skew } from '../../../signal/netSignal.ts'
import type { ReportContext } from '../context.ts'
import { section } from '../section.ts'
import type { Section } from '../section.ts'
import { groupBy, table, verdict } from '../table.ts'
import type { CellText, Table } from '../table.ts'
import { capital, lengthRange, someOf } from '../words.ts'

/** Lengths and delays by layer, because outer layers are faster; then the skews against their limits. */
export function timingSection(context: ReportContext): Section {
  const { board, signals } = context.review
  const withPackage = board.nets.some((net) => net.packageDelay !== null)
  const partial = signals.some((signal) => signal.breakoutOnly)
  return section({
    id: 'timing',
    title: 'Lengths, delays and skew',
    paragraphs: [
      withPackage
        ? 'Skew counts the delay inside the package where the description gives it; the lengths and delays below do not.'
        : 'Delays inside the package are not described, so nothing here counts them.',
      ...(partial
        ? [
            'Where the length of a main route is not given, its totals cover the breakouts alone, and the skew shown is what the main routes have to take up.',
          ]
        : []),
    ],
    tables: [layerTable(signals, context), skewTable(context.review.skews)],
  })
}

function layerTable(signals: readonly NetSignal[], { layerName, unit }: ReportContext): Table {
  const parts = signals.flatMap((signal) => signal.perLayer.map((part) => ({ signal, part })))
  return table({
    id: 'delays-table',
    caption: 'Length and delay on each layer',
    columns: ['Class', 'Layer', '#Nets', '#Length', '#Delay', '#Delay per length', 'Covers'],
    rows: groupBy(parts, ({ signal, part }) =>
      JSON.stringify([signal.class, part.layer, signal.breakoutOnly]),
    ).map((group) => {
      const [{ signal, part }] = group
      const lengths = group.map((each) => each.part.length)
      const delays = group.map((each) => each.part.delay)
      const total = lengths.reduce((sum, each) => sum + each, 0)
      const slowness = total > 0 ? delays.reduce((sum, each) => sum + each, 0) / total : null
      return [
        signal.class,
        layerName(part.layer),
        String(group.length),
        lengthRange(Math.min(...lengths), Math.max(...lengths), unit),
        timeRange(Math.min(...delays), Math.max(...delays)),
        slowness === null ? '–' : formatDelayPerLength(slowness, unit),
        signal.breakoutOnly ? 'breakout alone' : 'breakout and main route',
      ]
    }),
    whenEmpty: 'No net has a route.',
  })
}

function timeRange(low: number, high: number): string {
  const from = formatTime(low)
  const to = formatTime(high)
  return from === to ? from : `${from} to ${to}`
}

function skewTable(skews: readonly Skew[]): Table {
  return table({
    id: 'skew-table',
    caption: 'Skew inside pairs and match groups',
    columns: ['Matched', 'Nets', 'Earliest', 'Latest', '#Skew', '#Limit', 'Verdict'],
    rows: skews.map(skewRow),
    whenEmpty: 'No pairs or match groups have routes.',
  })
}

function skewRow(skew: Skew): CellText[] {
  const outcome = (): CellText => {
    if (skew.limit === null) return 'no limit given'
    if (skew.skew <= skew.limit) return { text: '', verdict: verdict('pass', 'within') }
    return skew.toBeCompensated
      ? { text: '', verdict: verdict('watch', 'to be compensated in the main route') }
      : { text: '', verdict: verdict('fail', 'over the limit') }
  }
  return [
    { text: skew.name, note: capital(skew.kind) },
    someOf(skew.nets, 3),
    { text: formatTime(skew.earliest.delay), note: skew.earliest.net },
    { text: formatTime(skew.latest.delay), note: skew.latest.net },
    formatTime(skew.skew),
    skew.limit === null ? '–' : formatTime(skew.limit),
    outcome(),
  ]
}
