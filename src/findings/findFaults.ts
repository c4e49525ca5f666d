import type { FindingContext } from './context.ts'
import type { Finding } from './finding.ts'
import { annularRingTooSmall } from './rules/annularRingTooSmall.ts'
import { antipadsMerge } from './rules/antipadsMerge.ts'
import { aspectRatioTooHigh } from './rules/aspectRatioTooHigh.ts'
import { assumedInputDecides } from './rules/assumedInputDecides.ts'
import { ballNotEscaped } from './rules/ballNotEscaped.ts'
import { belowCapability } from './rules/belowCapability.ts'
import { channelTooNarrow } from './rules/channelTooNarrow.ts'
import { claimRefuted } from './rules/claimRefuted.ts'
import { drillTooNear } from './rules/drillTooNear.ts'
import { formulaOutsideLimits } from './rules/formulaOutsideLimits.ts'
import { mainOffTarget } from './rules/mainOffTarget.ts'
import { maskTooNear } from './rules/maskTooNear.ts'
import { neckCouples } from './rules/neckCouples.ts'
import { neckOffTarget } from './rules/neckOffTarget.ts'
import { neckTooLong } from './rules/neckTooLong.ts'
import { processDecides } from './rules/processDecides.ts'
import { skewTooLarge } from './rules/skewTooLarge.ts'
import { spanUnbuildable } from './rules/spanUnbuildable.ts'
import { stepTooLarge } from './rules/stepTooLarge.ts'
import { stubTooLong } from './rules/stubTooLong.ts'
import { thicknessDoesNotAddUp } from './rules/thicknessDoesNotAddUp.ts'
import { traceOverAntipad } from './rules/traceOverAntipad.ts'
import { viasLoadNeck } from './rules/viasLoadNeck.ts'

type Rule = (context: FindingContext) => Finding[]

/** In the order in which findings of one severity are listed: what gets out, what is built, what the edge sees. */
const RULES: readonly Rule[] = [
  ballNotEscaped,
  claimRefuted,
  channelTooNarrow,
  drillTooNear,
  maskTooNear,
  annularRingTooSmall,
  aspectRatioTooHigh,
  spanUnbuildable,
  belowCapability,
  thicknessDoesNotAddUp,
  antipadsMerge,
  traceOverAntipad,
  viasLoadNeck,
  mainOffTarget,
  neckOffTarget,
  stepTooLarge,
  neckTooLong,
  processDecides,
  neckCouples,
  stubTooLong,
  skewTooLarge,
  formulaOutsideLimits,
  assumedInputDecides,
]

const RANK: Readonly<Record<Finding['severity'], number>> = { error: 0, warning: 1, note: 2 }

/** What every rule finds, errors first, then warnings, then notes; each in the order of the rules. */
export function findFaults(context: FindingContext): Finding[] {
  // The sort is stable, so that the order of the rules holds inside a severity.
  return RULES.flatMap((rule) => rule(context)).sort((a, b) => RANK[a.severity] - RANK[b.severity])
}
