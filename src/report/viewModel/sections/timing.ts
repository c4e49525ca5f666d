import { formatDelayPerLength, formatTime } from '../../../units/format.ts'
import type { NetSignal, Skew } from '../../../signal/netSignal.ts'
import type { ReportContext } from '../context.ts'
import { section } from '../section.ts'
import type { Section } from '../section.ts'
import { byRanks, groupBy, table, verdict } from '../table.ts'
import type { CellText, Table } from '../table.ts'
import { ABSENT, count, lengthRange, someOf } from '../words.ts'

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
      'A via counts with the travel along its barrel and with the time that it takes to charge its pad on the exit layer and what hangs beyond; to a net that leaves without one it adds nothing.',
      ...(partial
        ? [
            'Where the length of a main route is not given, its totals cover the breakouts alone, and the skew shown is what the main routes have to take up.',
          ]
        : []),
    ],
    tables: [layerTable(signals, context), skewTable(context.review.skews)],
  })
}

function layerTable(signals: readonly NetSignal[], context: ReportContext): Table {
  const { layerName, unit } = context
  const { board } = context.review
  const classes = board.classes.map((each) => each.name)
  const parts = signals
    .flatMap((signal) => signal.perLayer.map((part) => ({ signal, part })))
    .sort(byRanks(({ signal, part }) => [classes.indexOf(signal.class), part.layer]))
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
        slowness === null ? ABSENT : formatDelayPerLength(slowness, unit),
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

/** What exceeds its limit, or has none, row by row; what keeps within it counted together. */
function skewTable(skews: readonly Skew[]): Table {
  const [kept, shown] = [skews.filter(keepsLimit), skews.filter((skew) => !keepsLimit(skew))]
  return table({
    id: 'skew-table',
    caption: 'Skew inside pairs and match groups',
    columns: SKEW_COLUMNS,
    rows: [
      ...shown.map(skewRow),
      ...groupBy(kept, ({ kind, limit }) => `${kind} ${limit ?? ''}`).map(keptRow),
    ],
    whenEmpty: 'No pairs or match groups have routes.',
    notes:
      kept.length === 0
        ? []
        : ['Pairs and groups within their limit share a row here; the appendix has each of them.'],
  })
}

const SKEW_COLUMNS = ['Matched', 'Nets', 'Earliest', 'Latest', '#Skew', '#Limit', 'Verdict']

/** Every pair and group by itself, for the appendix. */
export function everySkewTable(skews: readonly Skew[]): Table {
  return table({
    id: 'every-skew-table',
    caption: 'Every pair and match group',
    columns: SKEW_COLUMNS,
    rows: skews.map(skewRow),
    whenEmpty: 'No pairs or match groups have routes.',
  })
}

function keepsLimit({ skew, limit }: Skew): boolean {
  return limit !== null && skew <= limit
}

function keptRow(group: readonly [Skew, ...Skew[]]): CellText[] {
  const [first, ...rest] = group
  const largest = rest.reduce((most, each) => (each.skew > most.skew ? each : most), first)
  return [
    { text: `${count(group.length, first.kind)} within the limit`, note: `largest: ${largest.name}` },
    someOf(
      group.flatMap((each) => each.nets),
      3,
    ),
    { text: formatTime(largest.earliest.delay), note: largest.earliest.net },
    { text: formatTime(largest.latest.delay), note: largest.latest.net },
    { text: formatTime(largest.skew), note: 'largest' },
    first.limit === null ? ABSENT : formatTime(first.limit),
    { text: '', verdict: verdict('pass', 'within') },
  ]
}

function skewRow(skew: Skew): CellText[] {
  return [
    { text: skew.name, note: skew.kind },
    // A pair is called after its two nets.
    skew.kind === 'pair' ? ABSENT : someOf(skew.nets, 3),
    { text: formatTime(skew.earliest.delay), note: skew.earliest.net },
    { text: formatTime(skew.latest.delay), note: skew.latest.net },
    formatTime(skew.skew),
    skew.limit === null ? ABSENT : formatTime(skew.limit),
    skewVerdict(skew),
  ]
}

function skewVerdict(skew: Skew): CellText {
  if (skew.limit === null) return 'no limit given'
  if (keepsLimit(skew)) return { text: '', verdict: verdict('pass', 'within') }
  return {
    text: '',
    verdict: skew.toBeCompensated
      ? verdict('watch', 'to be compensated in the main route')
      : verdict('fail', 'over the limit'),
  }
}
