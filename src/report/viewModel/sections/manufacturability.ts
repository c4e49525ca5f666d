import type { ReportContext } from '../context.ts'
import { manufacturedFeatures } from '../features.ts'
import type { Feature } from '../features.ts'
import { section } from '../section.ts'
import type { Section } from '../section.ts'
import { table, verdict } from '../table.ts'
import type { CellText } from '../table.ts'
import { ABSENT } from '../words.ts'
import { formatNumber, formatPercent } from '../../../units/format.ts'

const NANOMETRE = 1e-9

/** Every feature the breakout asks for, against what the fabricator states. */
export function manufacturabilitySection(context: ReportContext): Section {
  const { fabrication } = context.review.board
  return section({
    id: 'manufacturability',
    title: 'Manufacturability',
    paragraphs: [
      `Held against class “${fabrication.className}” (${fabrication.source}, ${fabrication.date}). Width tolerance ± ${formatPercent(fabrication.widthTolerance, 0)} of the finished width, not less than ${context.length(fabrication.widthToleranceFloor)}.`,
    ],
    tables: [
      table({
        id: 'features-table',
        caption: 'Each feature against the capability stated',
        columns: ['Feature', 'Where', '#On this board', '#Capability', '#Margin', 'Verdict'],
        rows: manufacturedFeatures(context.review, context.layerName).map((feature) =>
          featureRow(feature, context),
        ),
        notes: [
          'Distances past lands, pads and holes are those of the tightest channel in use, with its traces in the middle. Annular rings: external from the finished hole, internal from the drilled hole. A plane web is etched like an inner trace and held to its width.',
        ],
      }),
    ],
  })
}

/** Differences of lengths carry the noise of binary fractions; nothing here is finer than a nanometre. */
function nearestNanometre(metres: number): number {
  return Math.round(metres / NANOMETRE) * NANOMETRE
}

function featureRow(feature: Feature, { length }: ReportContext): CellText[] {
  const show = (value: number): string => {
    if (feature.unit === 'm') return length(nearestNanometre(value))
    return feature.unit === 'count' ? String(value) : formatNumber(value)
  }
  const { limit } = feature
  if (limit === null)
    return [feature.name, feature.where, show(feature.value), ABSENT, ABSENT, 'no limit stated']
  const sense = feature.sense === 'at least' ? 'at least' : 'at most'
  const margin = feature.sense === 'at least' ? feature.value - limit : limit - feature.value
  const outcome = feature.met
    ? verdict(margin < feature.tight ? 'watch' : 'pass', margin < feature.tight ? 'met, no room' : 'met')
    : verdict('fail', 'not met')
  return [
    feature.name,
    feature.where,
    show(feature.value),
    `${sense} ${show(limit)}`,
    show(margin),
    { text: '', verdict: outcome },
  ]
}
