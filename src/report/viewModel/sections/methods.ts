import { formatNumber } from '../../../units/format.ts'
import type { Estimate } from '../../../impedance/estimate.ts'
import type { Limit, Violation } from '../../../impedance/closedForm/limits.ts'
import type { ReportContext } from '../context.ts'
import { section } from '../section.ts'
import type { Section } from '../section.ts'
import { table } from '../table.ts'
import type { CellText, Table } from '../table.ts'
import { bandText, capital, count } from '../words.ts'

interface MethodUse {
  readonly estimate: Estimate
  chosen: number
  compared: number
  smallest: number
  largest: number
  readonly bases: Set<string>
  readonly violations: Map<string, Violation>
}

/** Which methods answered, for how many lines, inside which limits and with which error band. */
export function methodsSection({ review }: ReportContext): Section {
  const uses = collect(
    review.lines.entries.flatMap((entry) => (entry.impedance === null ? [] : [entry.impedance])),
  )
  const ordered = [...uses.values()].sort(byUse)
  return section({
    id: 'methods',
    title: 'Methods used',
    paragraphs: [
      'Every line is computed by a field solution of its cross-section and by every closed form that applies. The method with the smallest error band for that line is chosen, and its band is printed with the value; the best of the other kind stands beside it. A formula outside its limits still answers, with a wider band, and says so.',
      ...lossText(review),
    ],
    tables: [methodTable(ordered)],
  })
}

function byUse(a: MethodUse, b: MethodUse): number {
  return a.chosen === b.chosen ? b.compared - a.compared : b.chosen - a.chosen
}

function lossText(review: ReportContext['review']): string[] {
  const methods = new Set(
    review.lines.entries.flatMap((entry) => (entry.impedance === null ? [] : [entry.impedance.loss.method])),
  )
  return methods.size === 0 ? [] : [`Losses: ${[...methods].join('; ')}.`]
}

function collect(
  lines: readonly { chosen: Estimate; others: readonly Estimate[] }[],
): Map<string, MethodUse> {
  const uses = new Map<string, MethodUse>()
  const note = (estimate: Estimate, chosen: boolean): void => {
    const use = uses.get(estimate.method.id) ?? unused(estimate)
    if (chosen) use.chosen += 1
    else use.compared += 1
    use.smallest = Math.min(use.smallest, estimate.claimedError)
    use.largest = Math.max(use.largest, estimate.claimedError)
    use.bases.add(estimate.errorBasis)
    for (const violation of estimate.violations) {
      use.violations.set(violation.quantity, farther(use.violations.get(violation.quantity), violation))
    }
    uses.set(estimate.method.id, use)
  }
  for (const line of lines) {
    note(line.chosen, true)
    for (const other of line.others) note(other, false)
  }
  return uses
}

function unused(estimate: Estimate): MethodUse {
  return {
    estimate,
    chosen: 0,
    compared: 0,
    smallest: Infinity,
    largest: 0,
    bases: new Set(),
    violations: new Map(),
  }
}

function farther(before: Violation | undefined, now: Violation): Violation {
  const miss = ({ value, min, max }: Violation): number => Math.max(min - value, value - max)
  return before !== undefined && miss(before) > miss(now) ? before : now
}

function methodTable(uses: readonly MethodUse[]): Table {
  return table({
    id: 'methods-table',
    caption: 'Methods, their limits and error bands',
    columns: ['Method', '>Source', '>Valid for', '#Chosen for', '#Error band', '>Band comes from'],
    rows: uses.map(methodRow),
    whenEmpty: 'No impedance was computed.',
  })
}

function methodRow(use: MethodUse): CellText[] {
  const { method } = use.estimate
  const broken = [...use.violations.values()].map((each) => `${each.quantity} = ${formatNumber(each.value)}`)
  const band =
    use.smallest === use.largest
      ? `± ${bandText(use.largest)}`
      : `± ${bandText(use.smallest)} to ${bandText(use.largest)}`
  return [
    { text: method.title, mark: method.ownFit ? 'own fit' : null },
    method.source,
    {
      text: limitsText(method.limits),
      note: broken.length === 0 ? null : `left here at ${broken.join(', ')}`,
    },
    {
      text: count(use.chosen, 'line'),
      note: use.compared === 0 ? null : `compared on ${count(use.compared, 'line')}`,
    },
    band,
    [...use.bases].map(capital).join('; '),
  ]
}

/** `width/height 0.1 to 2.5`, one after the other. */
export function limitsText(limits: readonly Limit[]): string {
  if (limits.length === 0) return 'no limit stated'
  return limits
    .map(({ quantity, min, max }) => {
      if (max === Infinity) return `${quantity} from ${formatNumber(min)}`
      if (min === -Infinity) return `${quantity} up to ${formatNumber(max)}`
      return min === max
        ? `${quantity} = ${formatNumber(min)}`
        : `${quantity} ${formatNumber(min)} to ${formatNumber(max)}`
    })
    .join('; ')
}
