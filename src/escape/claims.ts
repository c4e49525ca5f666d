import type { LayerClaim } from '../board/board.ts'
import type { ClaimVerdict, EscapePlan, LayerRule } from './escape.ts'

type Judgement = Pick<ClaimVerdict, 'computed' | 'verdict' | 'reason'>

/**
 * A claim about the layers a package needs, against the plan with the same technology. Where the stackup
 * has fewer signal layers than were claimed and the plan does not get every ball out, or where no
 * ball has a net to plan, the row rule stands in.
 */
export function judgeClaim(claim: LayerClaim, plan: EscapePlan, rules: readonly LayerRule[]): ClaimVerdict {
  const { technology, signalLayers: claimed, source } = claim
  return { technology, claimed, source, ...judge(claimed, plan, rowRule(plan, rules)) }
}

function judge(claimed: number, plan: EscapePlan, rule: LayerRule | null): Judgement {
  if (ballsOf(plan) === 0) return byRowRule(claimed, rule, 'no ball has a net, so nothing was planned')
  if (plan.unescaped.length === 0) return byPlan(claimed, plan)
  if (claimed <= plan.layers.length) return byWhatStaysInside(claimed, plan, rule)
  const inside = `leaves ${ballsText(plan.unescaped.length)} of ${ballsOf(plan)} inside`
  return byRowRule(claimed, rule, `the stackup has only ${layersText(plan.layers.length)}, which ${inside}`)
}

/** Every ball gets out: the layers up to the last one in use are what it takes. */
function byPlan(claimed: number, plan: EscapePlan): Judgement {
  const used = plan.layers.findLastIndex(({ escaped }) => escaped > 0) + 1
  const total = ballsOf(plan)
  if (used <= claimed) {
    const reason = `the plan gets all ${ballsText(total)} out on ${layersText(used)}; ${claimed} were claimed`
    return { computed: used, verdict: 'confirmed', reason }
  }
  const deepest = plan.layers[used - 1]
  const traces = deepest?.tracesPerChannel ?? 0
  const reason = [
    `on ${layersText(claimed)} the plan leaves ${ballsText(total - escapedOn(plan, claimed))} of ${total} inside`,
    `with ${traces} ${traces === 1 ? 'trace' : 'traces'} a channel on layer ${deepest?.layer ?? used}`,
    `it needs ${layersText(used)}`,
  ]
  return { computed: used, verdict: 'refuted', reason: `${reason[0]}, ${reason[1]}; ${reason[2]}` }
}

/** The claimed layers are there and do not suffice. */
function byWhatStaysInside(claimed: number, plan: EscapePlan, rule: LayerRule | null): Judgement {
  const total = ballsOf(plan)
  const [first] = plan.unescaped
  const sentence = `the plan leaves ${ballsText(total - escapedOn(plan, claimed))} of ${total} inside on ${layersText(claimed)}, and ${plan.unescaped.length} on all ${plan.layers.length}`
  const example = first === undefined ? '' : `; ${first.ball}: ${first.reason}`
  return { computed: rule?.signalLayers ?? null, verdict: 'refuted', reason: sentence + example }
}

function byRowRule(claimed: number, rule: LayerRule | null, why: string): Judgement {
  const computed = rule?.signalLayers ?? null
  const basis = rule === null ? '' : `; by the row rule, ${rule.basis}`
  const sum = computed === null ? '' : `: ${layersText(computed)}`
  return {
    computed,
    verdict: computed !== null && computed <= claimed ? 'confirmed' : 'refuted',
    reason: `${why}${basis}${sum}; ${claimed} were claimed`,
  }
}

function rowRule(plan: EscapePlan, rules: readonly LayerRule[]): LayerRule | null {
  return rules.find(({ id, technology }) => id === 'rows' && technology === plan.technology) ?? null
}

function ballsOf(plan: EscapePlan): number {
  return plan.routes.length + plan.unescaped.length
}

function escapedOn(plan: EscapePlan, layers: number): number {
  return plan.layers.slice(0, layers).reduce((sum, { escaped }) => sum + escaped, 0)
}

function layersText(count: number): string {
  return count === 1 ? '1 signal layer' : `${count} signal layers`
}

function ballsText(count: number): string {
  return count === 1 ? '1 signal ball' : `${count} signal balls`
}
