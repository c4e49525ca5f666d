import type { ClaimVerdict, PackageEscape } from '../../escape/escape.ts'
import { boardIndex } from '../boardIndex.ts'
import type { FindingContext } from '../context.ts'
import { escapeTrials } from '../escapeTrials.ts'
import type { Finding, Remedy } from '../finding.ts'
import { count, words } from '../measure.ts'

/** A layer count that somebody claimed and the plan does not confirm: a warning, as the claim may rest on other rules. */
export function claimRefuted(context: FindingContext): Finding[] {
  return context.escapes.flatMap((escape) =>
    escape.claims
      .filter((claim) => claim.verdict === 'refuted')
      .map((claim) => refuted(context, escape, claim)),
  )
}

function refuted(context: FindingContext, escape: PackageEscape, claim: ClaimVerdict): Finding {
  const { computed, claimed, technology } = claim
  const plan = escape.plans.find((each) => each.technology === technology)
  return {
    code: 'claim-refuted',
    severity: 'warning',
    subject: { kind: 'package', name: escape.package, layer: null, package: escape.package, alike: [] },
    measured:
      computed === null
        ? words(`no number of signal layers computed with ${technology} vias`)
        : count(`signal layers computed with ${technology} vias`, computed),
    limit: count('claimed', claimed),
    limitSource: claim.source,
    remedies: remediesFor(context, escape, claim),
    details: [words(claim.reason)],
    assumed: plan?.assumed ?? [],
  }
}

function isConfirmed(again: ClaimVerdict, claim: ClaimVerdict): boolean {
  return (
    again.technology === claim.technology && again.claimed === claim.claimed && again.verdict === 'confirmed'
  )
}

/** What would make the claim come true. */
function remediesFor(context: FindingContext, escape: PackageEscape, claim: ClaimVerdict): Remedy[] {
  const pack = boardIndex(context).packages.get(escape.package)
  if (pack === undefined) return []
  const layersBy = (tried: PackageEscape): number | null =>
    tried.claims.find((each) => isConfirmed(each, claim))?.computed ?? null
  return escapeTrials(context, pack, (tried) => layersBy(tried) !== null).flatMap((trial) => {
    const layers = layersBy(trial.escape)
    if (layers === null) return []
    return [{ action: trial.action, value: trial.value, result: count('signal layers computed', layers) }]
  })
}
