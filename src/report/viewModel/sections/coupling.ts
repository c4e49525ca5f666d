import { formatNumber, formatOhms, formatPercent, formatTime } from '../../../units/format.ts'
import type { NeckCoupling } from '../../../signal/neckCoupling.ts'
import type { ReportContext } from '../context.ts'
import { section } from '../section.ts'
import type { Section } from '../section.ts'
import { groupBy, table, verdict } from '../table.ts'
import type { CellText } from '../table.ts'
import { ABSENT, count, list, someOf } from '../words.ts'

/** What the traces that run beside necks send into them: the worst neck of each class, package and layer. */
export function couplingSection(context: ReportContext): Section {
  const { couplings } = context.review
  const groups = groupBy(couplings, (each) => JSON.stringify([each.class, each.package, each.layer]))
  const ordered = groups
    .map((group) => ({ group, worst: worstOf(group) }))
    .sort((a, b) => b.worst.nearEnd / b.worst.limit - a.worst.nearEnd / a.worst.limit)
  const shown = ordered.filter(({ worst }, index) => index === 0 || worst.nearEnd > QUIET * worst.limit)
  return section({
    id: 'coupling',
    title: 'Traces beside necks',
    paragraphs: [
      'A trace that switches sends a wave into the one beside it that runs back to its near end, and over a single plane one that runs on to its far end. The figures are shares of the swing of the trace that switches, differential for pairs, with both lines matched and with every neighbour switching at the worst instant: a bound, not what a bus will show.',
    ],
    tables: [
      table({
        id: 'coupling-table',
        caption: 'Worst neck of each class, package and layer',
        columns: [
          '>Place',
          '>Strongest neighbour',
          'Gap and length side by side',
          'Coefficient',
          'Near-end noise, all neighbours',
          'Far-end noise',
          'Impedance as it switches',
        ],
        rows: shown.map(({ group, worst }) => couplingRow(group, worst, context)),
        whenEmpty: 'No neck has a trace within reach beside it.',
        notes: [
          ...quietNote(ordered.length - shown.length),
          ...unsolvedNote(couplings),
          ...notesOn(couplings),
        ],
      }),
    ],
  })
}

/** Of the limit: what is less has no row of its own. */
const QUIET = 0.1

function quietNote(left: number): string[] {
  if (left === 0) return []
  return [`Left out: ${count(left, 'row')} with less than a tenth of the limit.`]
}

function unsolvedNote(couplings: readonly NeckCoupling[]): string[] {
  const nets = new Set(couplings.flatMap(({ unsolved }) => unsolved))
  return nets.size === 0 ? [] : [`Not counted, as their rows cannot be solved: ${someOf([...nets], 6)}.`]
}

function worstOf([first, ...others]: readonly [NeckCoupling, ...NeckCoupling[]]): NeckCoupling {
  return others.reduce((worst, each) => (each.nearEnd > worst.nearEnd ? each : worst), first)
}

function notesOn(couplings: readonly NeckCoupling[]): string[] {
  if (couplings.length === 0) return []
  return [
    `Near-end noise: error band ${formatPercent(Math.max(...couplings.map(({ band }) => band)), 0)} of the value at most.`,
    'Neighbours are traces on the same layer within three heights over the nearest plane, four where there is one plane, with no other trace between. Dog-bones, vias and main routes are not looked at.',
    'Coefficient: backward wave of a length that the edge does not span; shorter lengths send back less. Of a pair as neighbour the nearer trace counts alone; what stands between the two traces of a parted pair counts for both.',
    'Impedance: of the neck where that neighbour is nearest, while it switches with the net and against it.',
    `Limit: ${list([...new Set(couplings.map(({ limitSource }) => limitSource))])}.`,
  ]
}

function couplingRow(
  group: readonly NeckCoupling[],
  worst: NeckCoupling,
  { length, layerName }: ReportContext,
): CellText[] {
  const { nearEnd, farEnd, limit, neighbours } = worst
  const [strongest] = neighbours
  const over = group.filter((each) => each.nearEnd > each.limit).length
  const names = worst.partner === null ? worst.net : `${worst.net} and ${worst.partner}`
  return [
    {
      text: `${worst.class}, ${worst.package} on ${layerName(worst.layer)}`,
      notes: [`${count(group.length, 'neck')}, ${over} above the limit`, `worst: ${names}`],
    },
    strongest === undefined
      ? ABSENT
      : {
          text: strongest.net,
          notes: [
            `${strongest.class}, edge ${formatTime(strongest.riseTime)}`,
            neighbours.length === 1
              ? 'the only neighbour'
              : `sends ${formatPercent(strongest.nearEnd)}, one of ${count(neighbours.length, 'neighbour')}`,
          ],
        },
    strongest === undefined
      ? ABSENT
      : { text: `gap ${length(strongest.smallestGap)}`, note: `over ${length(strongest.length)}` },
    strongest === undefined ? ABSENT : formatNumber(strongest.backward),
    {
      text: formatPercent(nearEnd),
      note: `limit ${formatPercent(limit)}`,
      verdict: nearEnd > limit ? verdict('fail', 'over the limit') : verdict('pass', 'within the limit'),
    },
    formatPercent(farEnd),
    strongest?.impedance
      ? {
          text: `with ${formatOhms(strongest.impedance.withIt)}`,
          note: `against ${formatOhms(strongest.impedance.againstIt)}`,
        }
      : ABSENT,
  ]
}
