import { formatOhms, formatPercent, formatTime } from '../../../units/format.ts'
import type { EndSignal, NetSignal } from '../../../signal/netSignal.ts'
import { worstPeak } from '../answer.ts'
import { mappedRoutes } from '../breakoutMaps.ts'
import type { MappedRoute } from '../breakoutMaps.ts'
import type { ReportContext } from '../context.ts'
import { section, slug } from '../section.ts'
import type { Section } from '../section.ts'
import { groupBy, table } from '../table.ts'
import type { CellText, Table } from '../table.ts'
import { ABSENT, signedPercent } from '../words.ts'
import { unusedLinesTable } from './impedance.ts'
import { everySkewTable } from './timing.ts'

/** Every net on a row of its own, class by class, and the lines that nothing uses. */
export function appendixSection(context: ReportContext): Section {
  const mapped = mappedRoutes(context.review.escapes)
  const ends = context.review.signals.flatMap((signal) =>
    signal.ends.map((end) => ({ signal, end, mapped: mapped.get(`${end.package} ${end.ball}`) })),
  )
  return section({
    id: 'appendix',
    title: 'Appendix: every net',
    paragraphs: [
      'Reflection: exact, the larger of between main routes and in front of the device. Exit: layer and side of the package; it links to the route in the map of that layer. Totals marked “breakout” leave the main route out.',
    ],
    tables: [
      ...groupBy(ends, ({ signal }) => signal.class).map((group) => classTable(group, context)),
      everySkewTable(context.review.skews),
      unusedLinesTable(context),
    ],
  })
}

interface NetEnd {
  readonly signal: NetSignal
  readonly end: EndSignal
  readonly mapped: MappedRoute | undefined
}

function classTable(group: readonly [NetEnd, ...NetEnd[]], context: ReportContext): Table {
  const name = group[0].signal.class
  return table({
    id: `nets-${slug(name)}`,
    caption: `Nets of ${name}`,
    columns: [
      'Net',
      'Ball',
      'Exit',
      '#Width',
      '#Neck',
      '#Neck to main',
      '#Share of edge',
      '#Reflection',
      '#Total length',
      '#Total delay',
    ],
    rows: group.map((each) => netRow(each, context)),
  })
}

function netRow({ signal, end, mapped }: NetEnd, { length, layerName }: ReportContext): CellText[] {
  const uncoupled = mapped?.route.uncoupledLength ?? null
  const exit = layerName(end.layer)
  const { exact } = worstPeak(end)
  return [
    signal.net,
    `${end.package} ${end.ball}`,
    mapped === undefined ? exit : { text: `${exit}, ${mapped.route.leaves}`, href: mapped.href },
    end.gap === null ? length(end.width) : { text: length(end.width), note: `gap ${length(end.gap)}` },
    uncoupled === null
      ? length(end.neckLength)
      : { text: length(end.neckLength), note: `uncoupled ${length(uncoupled)}` },
    `${formatOhms(end.neckImpedance)} to ${formatOhms(end.mainImpedance)}`,
    end.electricalLength.long
      ? `${formatPercent(end.electricalLength.share)} long`
      : formatPercent(end.electricalLength.share),
    Math.abs(exact) > end.reflection.limit ? `${signedPercent(exact)} over` : signedPercent(exact),
    { text: length(signal.totalLength), note: signal.breakoutOnly ? 'breakout' : null },
    signal.totalDelay > 0 ? formatTime(signal.totalDelay) : ABSENT,
  ]
}
