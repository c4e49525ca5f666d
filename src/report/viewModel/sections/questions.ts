import { formatFrequency, formatPercent } from '../../../units/format.ts'
import type { Finding, FindingCode } from '../../../findings/finding.ts'
import type { Assumption } from '../../../units/assumption.ts'
import { findingText } from '../../messages.ts'
import type { ReportContext } from '../context.ts'
import { findingGroups } from '../findings.ts'
import { section } from '../section.ts'
import type { Section } from '../section.ts'
import { groupBy } from '../table.ts'
import { count, someOf } from '../words.ts'

/** Findings that only the fabricator can settle, and what to ask them. */
const ASKS: Readonly<Partial<Record<FindingCode, string>>> = {
  'below-capability': 'Can this be made, at what yield and cost',
  'annular-ring-too-small': 'Which pad or drill would you accept',
  'aspect-ratio-too-high': 'Can this hole be plated through',
  'span-unbuildable': 'Which order of lamination would build this span',
  'drill-too-near': 'Which distance between drilled hole and copper can be held',
  'mask-too-near': 'Which distance between mask opening and trace can be held',
  'channel-too-narrow': 'Which trace and gap would you make here',
  'antipads-merge': 'Which antipad can be drilled safely',
  'trace-over-antipad': 'Which antipad can be drilled safely',
  'neck-off-target': 'Which pressed thickness can you offer under the fine traces',
  'main-off-target': 'Which width would you draw for the target',
  'formula-outside-limits': 'Which impedance does your field solution give',
  'thickness-does-not-add-up': 'Which pressed thicknesses and which total will be built',
  'stub-too-long': 'Which residual stub can backdrilling hold',
}

/** Questions whose answers would make this report firmer: from what was assumed, and from what was found. */
export function questionsSection(context: ReportContext): Section {
  const { board, findings } = context.review
  return section({
    id: 'questions',
    title: 'Open questions to the fabricator',
    paragraphs: [
      'Each answer can be entered in the description; the report then says so and drops the question.',
    ],
    points: [
      ...standingQuestions(context),
      ...assumptionQuestions(board.assumptions.filter(concernsFabricator)),
      ...findingQuestions(findings, context),
    ],
  })
}

function concernsFabricator({ path }: Assumption): boolean {
  return /^(stackup|vias|fabrication)\b/.test(path)
}

/** The same value for one part after another is one question. */
function assumptionQuestions(assumptions: readonly Assumption[]): string[] {
  const keyOf = ({ path }: Assumption): string => path.replace(/.*\./, '')
  return groupBy(assumptions, (each) => JSON.stringify([keyOf(each), each.value, each.source])).map(
    (group) => {
      const [{ value, source }] = group
      const quantities = [...new Set(group.map((each) => each.quantity))]
      return `Please confirm the ${someOf(quantities, 2)}: ${value} was assumed (${source}).`
    },
  )
}

/** Of each kind of finding the first, with how many there are. */
function findingQuestions(findings: readonly Finding[], { unit, layerName }: ReportContext): string[] {
  return findingGroups(findings).flatMap((group) => {
    const [first, ...others] = group
    const ask = ASKS[first.code]
    if (ask === undefined || first.severity === 'note') return []
    const also =
      others.length === 0
        ? ''
        : ` The same is asked for ${count(others.length, 'further place')}, see the findings.`
    return [`${ask}? ${findingText(first, unit, layerName).sentence}${also}`]
  })
}

/** What no description settles: these are asked every time. */
function standingQuestions({ review, length }: ReportContext): string[] {
  const { fabrication, analysis } = review.board
  const widths = review.lines.entries.flatMap((entry) =>
    entry.used && entry.width !== null ? [entry.width] : [],
  )
  const narrowest = widths.length === 0 ? null : Math.min(...widths)
  return [
    ...(narrowest === null
      ? []
      : [
          `Which finished width at the foot, and which tolerance, do you hold for a trace of ${length(narrowest)}? Here ± ${formatPercent(fabrication.widthTolerance, 0)} is used.`,
        ]),
    `Which resin content, test method and frequency stand behind each permittivity you would use? Here values are taken at ${formatFrequency(analysis.frequency)}.`,
    'How far may you change width and dielectric thickness to meet a target, and who has to agree?',
    'Will TDR coupons after IPC-TM-650 2.5.5.7 stand on every panel, with the readings sent along?',
  ]
}
