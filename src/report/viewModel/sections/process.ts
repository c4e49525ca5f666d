import { formatOhms, formatPercent, formatSignedRange } from '../../../units/format.ts'
import type { LineSpread } from '../../../tolerance/lineSpreads.ts'
import type { Contribution, ProcessSpread } from '../../../tolerance/processSpread.ts'
import type { Ohms, Ratio } from '../../../units/quantity.ts'
import type { ReportContext } from '../context.ts'
import { section } from '../section.ts'
import type { Section } from '../section.ts'
import { byRanks, groupBy, table, verdict } from '../table.ts'
import type { CellText, Table, Verdict } from '../table.ts'
import { ABSENT, list } from '../words.ts'

/** What the tolerances of the process do to every line in use: input by input, likely together, and all at once. */
export function processSection(context: ReportContext): Section {
  const { fabrication } = context.review.board
  const { widthTolerance, widthToleranceFloor, impedanceTolerance } = fabrication
  return section({
    id: 'process',
    title: 'What the process does to the impedance',
    paragraphs: [
      `Trace width may come out ± ${formatPercent(widthTolerance, 0)}, not less than ${context.length(widthToleranceFloor)}; thickness and permittivity of each layer as far off as its tolerance in the stackup says.`,
      `A main route is measured on the coupon, and the fabricator moves its width until it is within ± ${formatPercent(impedanceTolerance, 0)}. No coupon contains a neck: it comes out as it comes.`,
    ],
    tables: [spreadTable(context)],
  })
}

function spreadTable(context: ReportContext): Table {
  const { review, layerName, length, classNamed } = context
  const sorted = review.spreads.toSorted(
    byRanks(({ entry }) => [entry.stretch === 'neck' ? 0 : 1, entry.layer, entry.width ?? 0]),
  )
  return table({
    id: 'process-table',
    caption: 'Change of impedance by what may come out otherwise',
    columns: [
      'Layer',
      '>Lines',
      '#Width',
      '#By trace width',
      '#By dielectric thickness',
      '#By permittivity',
      '#By copper thickness',
      '>Together',
    ],
    rows: groupBy(sorted, ({ entry }) =>
      JSON.stringify([
        entry.stretch,
        entry.layer,
        entry.width,
        entry.gap,
        classNamed(entry.netClass)?.structure,
      ]),
    ).map((group): CellText[] => {
      const [{ entry, spread }] = group
      const names = [...new Set(group.map((each) => each.entry.netClass))]
      const head: CellText[] = [
        layerName(entry.layer),
        { text: list(names), note: entry.stretch === 'neck' ? 'neck' : 'main route' },
        {
          text: entry.width === null ? ABSENT : length(entry.width),
          note: entry.gap === null ? null : `gap\u00a0${length(entry.gap)}`,
        },
      ]
      if (spread === null) {
        return [...head, ABSENT, ABSENT, ABSENT, ABSENT, 'does not come out at an end of its tolerances']
      }
      return [
        ...head,
        ...QUANTITIES.map((quantity) => byInput(spread, quantity)),
        together(group, spread, context),
      ]
    }),
    whenEmpty: 'No line is used.',
    notes: [
      'Each input at either end of its tolerance, the others as described; several layers as root sum of squares. Together: root sum of squares of all, for inputs that err apart from each other. All at once: every input at its worse end, which is unlikely.',
      'Changes are those of the best closed form, taken to the value in the table of lines; they keep within 0.5 % of the impedance beside the field solution. What a trace gains, the gap of its pair loses. The thickness of the mask is not varied.',
    ],
  })
}

const QUANTITIES: readonly Contribution['quantity'][] = [
  'trace width',
  'dielectric thickness',
  'permittivity',
  'copper thickness',
]

function byInput({ byQuantity }: ProcessSpread, quantity: Contribution['quantity']): string {
  const range = byQuantity[quantity]
  return range.lowest === 0 && range.highest === 0 ? ABSENT : formatSignedRange(range)
}

/** In percent and in ohm, and whether lines of the group may leave the tolerance of their class. */
function together(
  group: readonly LineSpread[],
  { likely, worst }: ProcessSpread,
  context: ReportContext,
): CellText {
  const impedances = group.flatMap(({ entry }) => (entry.runs === null ? [] : [entry.runs.impedance]))
  const [low, high] = [Math.min(...impedances), Math.max(...impedances)]
  const ohms = `${formatOhms(low * (1 + likely.lowest))} to ${formatOhms(high * (1 + likely.highest))}`
  return {
    text: formatSignedRange(likely),
    notes: [...(impedances.length === 0 ? [] : [ohms]), `all at once ${formatSignedRange(worst)}`],
    verdict: leaving(group, likely, context),
  }
}

function leaving(
  group: readonly LineSpread[],
  likely: ProcessSpread['likely'],
  { classNamed }: ReportContext,
): Verdict {
  const isOut = (impedance: Ohms, target: Ohms, tolerance: Ratio): boolean =>
    Math.abs((impedance * (1 + likely.lowest)) / target - 1) > tolerance ||
    Math.abs((impedance * (1 + likely.highest)) / target - 1) > tolerance
  const out = group.some(({ entry: { runs, netClass } }) => {
    const known = classNamed(netClass)
    return runs !== null && known !== undefined && isOut(runs.impedance, known.target, known.tolerance)
  })
  if (!out) return verdict('pass', 'keeps the tolerance')
  return group.some(({ entry }) => entry.stretch === 'neck')
    ? verdict('watch', 'may leave the tolerance')
    : verdict('note', 'held by the coupon')
}
