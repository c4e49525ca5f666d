import { formatCapacitance, formatFrequency, formatOhms, formatTime } from '../../../units/format.ts'
import type { EndSignal, NetSection, NetSignal } from '../../../signal/netSignal.ts'
import type { ReportContext } from '../context.ts'
import { groupBy, table, verdict } from '../table.ts'
import type { Table } from '../table.ts'
import { ABSENT, bandText, list } from '../words.ts'

export interface NetEnd {
  readonly signal: NetSignal
  readonly end: EndSignal
}

/** What the edge meets between neck and dog-bone; nets that leave one package on one layer by like vias together. */
export function viaTable(ends: readonly NetEnd[], { length, layerName }: ReportContext): Table[] {
  const vias = ends.flatMap(({ signal, end }) => {
    const via = signal.sections.find(({ kind, package: pack }) => kind === 'via' && pack === end.package)
    return via === undefined ? [] : [{ signal, via }]
  })
  if (vias.length === 0) return []
  const key = ({ signal, via }: (typeof vias)[number]): string =>
    JSON.stringify([signal.structure, via.package, via.layer, via.length, via.hanging?.capacitance])
  const bands = vias.flatMap(({ via }) => via.band ?? [])
  return [
    table({
      id: 'vias-table',
      caption: 'Vias in the way of the edge',
      columns: [
        'Place',
        '#Nets',
        '#Barrel',
        '#Barrel impedance',
        '#Hanging',
        '#Hanging impedance',
        '#Delays an edge by',
      ],
      rows: groupBy(vias, key).map((group) => {
        const [{ signal, via }] = group
        const of = (figure: (via: NetSection) => number | null | undefined): number[] =>
          group.flatMap((each) => figure(each.via) ?? [])
        return [
          `${signal.structure === 'pair' ? 'pairs' : 'single traces'}, ${via.package ?? ''} on ${layerName(via.layer)}`,
          String(group.length),
          via.length === null ? ABSENT : length(via.length),
          rangeOf(
            of(({ impedance }) => impedance),
            formatOhms,
          ),
          via.hanging === null ? 'could not be solved' : formatCapacitance(via.hanging.capacitance),
          rangeOf(
            of(({ hanging }) => hanging?.impedance),
            formatOhms,
          ),
          rangeOf(
            of(({ delay, hanging }) => hanging && (delay ?? 0) + hanging.loadingDelay),
            formatTime,
          ),
        ]
      }),
      notes: [
        `Barrel: what the signal runs through, as a line. Hanging: pad on the exit layer and barrel beyond, capacitance of one barrel to the planes; as a line open at its end. Of pairs the impedances are differential. ${bands.length === 0 ? '' : `Both impedances ± ${bandText(Math.max(...bands))}, our estimate.`}`,
        'Capacitance: field of the barrel with its pads in the openings of the planes, by finite volumes about its axis. Inductance: supply vias around, as far from the via as their balls from its ball, of pairs the partner first. Delays an edge by: its barrel, and half the impedance of the neck times what hangs.',
      ],
    }),
  ]
}

/** `54.6 ohm`, or `41.9–58.7 ohm`. */
function rangeOf(values: readonly number[], format: (value: number) => string): string {
  if (values.length === 0) return ABSENT
  const [lowest, highest] = [format(Math.min(...values)), format(Math.max(...values))]
  const unit = / [^ ]+$/.exec(highest)?.[0] ?? ''
  return lowest === highest
    ? lowest
    : `${lowest.endsWith(unit) ? lowest.slice(0, lowest.length - unit.length) : lowest}–${highest}`
}

/** Barrels that hang beyond their exit layer, against the rule for the data rate. */
export function stubTable(ends: readonly NetEnd[], { length, layerName }: ReportContext): Table[] {
  const stubs = ends.flatMap(({ signal, end }) =>
    end.stub === null ? [] : [{ signal, end, stub: end.stub }],
  )
  if (stubs.length === 0) return []
  const key = ({ signal, end, stub }: (typeof stubs)[number]): string =>
    JSON.stringify([signal.class, end.package, end.layer, stub])
  return [
    table({
      id: 'stubs-table',
      caption: 'Via stubs: barrel that hangs beyond the exit layer',
      columns: ['Place', '#Nets', '#Stub', '#First null', '#Nyquist', '#Limit', 'Verdict'],
      rows: groupBy(stubs, key).map((group) => {
        const [{ signal, end, stub }] = group
        return [
          `${signal.class}, ${end.package} on ${layerName(end.layer)}`,
          String(group.length),
          length(stub.length),
          formatFrequency(stub.nullFrequency),
          stub.nyquist === null ? ABSENT : formatFrequency(stub.nyquist),
          stub.lengthLimit === null ? ABSENT : length(stub.lengthLimit),
          stub.lengthLimit === null
            ? 'no data rate, no limit'
            : {
                text: '',
                verdict:
                  stub.length > stub.lengthLimit ? verdict('fail', 'too long') : verdict('pass', 'within'),
              },
        ]
      }),
      notes: [
        'First null: quarter-wave frequency of the barrel with the dielectric around it, pads and planes counted.',
        `Limit: ${list([...new Set(stubs.map(({ stub }) => stub.limitSource))])}.`,
      ],
    }),
  ]
}
