import type { EscapePlan, PackageEscape } from '../../escape/escape.ts'
import { groupBy } from '../../numerics/groupBy.ts'
import { boardIndex } from '../boardIndex.ts'
import type { FindingContext } from '../context.ts'
import { escapeTrials, leftInside } from '../escapeTrials.ts'
import type { Finding, Remedy } from '../finding.ts'
import { count, words } from '../measure.ts'

/** How many balls, and how many reasons, are named; the plan lists them all. */
const NAMED_BALLS = 12
const NAMED_REASONS = 3

/**
 * Signal balls that the plan leaves inside: an error, one for each package. The remedies are plans made
 * again, and are listed if they let more balls out.
 */
export function ballNotEscaped(context: FindingContext): Finding[] {
  return context.escapes.flatMap((escape) => {
    const plan = escape.plans.find((each) => each.technology === escape.chosen)
    return plan === undefined || plan.unescaped.length === 0 ? [] : [inside(context, escape, plan)]
  })
}

function inside(context: FindingContext, escape: PackageEscape, plan: EscapePlan): Finding {
  const balls = plan.unescaped.map(({ ball }) => ball)
  const more = balls.length - NAMED_BALLS
  const reasons = [...groupBy(plan.unescaped, ({ reason }) => reason)].sort(
    ([, a], [, b]) => b.length - a.length,
  )
  return {
    code: 'ball-not-escaped',
    severity: 'error',
    subject: { kind: 'package', name: escape.package, layer: null, package: escape.package, alike: [] },
    measured: count('balls left inside', balls.length),
    limit: count('at most', 0),
    limitSource: `plan with ${plan.technology === 'through' ? 'through' : 'blind'} vias`,
    remedies: remediesFor(context, escape, balls.length),
    details: [
      count('signal balls', plan.routes.length + balls.length),
      words(`left inside: ${balls.slice(0, NAMED_BALLS).join(', ')}${more > 0 ? ` and ${more} more` : ''}`),
      ...reasons.slice(0, NAMED_REASONS).map(([reason, those]) => count(reason, those.length)),
    ],
    assumed: plan.assumed,
  }
}

function remediesFor(context: FindingContext, escape: PackageEscape, present: number): Remedy[] {
  const pack = boardIndex(context).packages.get(escape.package)
  const other = escape.plans.find((plan) => plan.technology !== escape.chosen)
  const technology: Remedy[] =
    other === undefined || other.unescaped.length >= present
      ? []
      : [
          {
            action: `plan with ${other.technology === 'blind' ? 'blind vias' : 'through vias'}`,
            value: words(''),
            result: count('balls left inside', other.unescaped.length),
          },
        ]
  if (pack === undefined) return technology
  const leftBy = (tried: PackageEscape): number => leftInside(tried, escape.chosen) ?? present
  const trials = escapeTrials(context, pack, (tried) => leftBy(tried) < present).map((trial) => {
    return {
      action: trial.action,
      value: trial.value,
      result: count('balls left inside', leftBy(trial.escape)),
    }
  })
  return [...technology, ...trials]
}
