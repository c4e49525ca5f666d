/**
 * One breakout built in several ways, compared in one run: a board for each way, each planned and judged.
 *
 *     Board ─► Variant[] ─► EscapePlan, LayerRule[] ─► worst neck ─► TechnologyRow[]
 *              escape/variants/   escape/              section/, impedance/
 */
import type { Board } from './board/board.ts'
import { packageOf } from './board/lookup.ts'
import type { Package } from './board/packages.ts'
import type { EscapePlan, LayerRule, SignalCount, ViaTechnology } from './escape/escape.ts'
import { layerRules } from './escape/layerRules.ts'
import { holesNote } from './escape/holesNote.ts'
import { withMains } from './escape/mainStarts.ts'
import { planEscape } from './escape/planEscape.ts'
import { layersFor, planJob } from './escape/planJob.ts'
import { ruleInput } from './escape/ruleInput.ts'
import { signalCount } from './escape/signalCount.ts'
import { COST_RULES, costMarks, costRanks, costText } from './escape/variants/costOrder.ts'
import type { Variant } from './escape/variants/variant.ts'
import { variantsOf } from './escape/variants/variantsOf.ts'
import type { Metres } from './units/quantity.ts'
import { NeckJudge } from './worstNeck.ts'
import type { WorstNeck } from './worstNeck.ts'

/** Every way to build the breakout of one package. */
export interface TechnologyComparison {
  readonly package: string
  readonly signals: SignalCount
  /** Copper layers of the stackup that carry signals. */
  readonly signalLayers: number
  readonly rows: readonly TechnologyRow[]
  readonly costRules: readonly string[]
}

export interface TechnologyRow extends Pick<Variant, 'id' | 'change' | 'state' | 'technology' | 'assumed'> {
  /** Null where the way cannot be built; then `change` says why. */
  readonly outcome: Outcome | null
}

export interface Outcome {
  /** Layers on which nets leave, whether or not all do. */
  readonly signalLayers: number
  /** Signal layers that the lands or a hole reach. */
  readonly layersReached: number
  /** `3`, or `more than 5` where nets stay inside on all that are reached. */
  readonly layersNeeded: string
  readonly netsOut: number
  readonly unescaped: number
  /** Why the first of those stays inside; null where none does. */
  readonly whyNot: string | null
  readonly longestNeck: LongestNeck | null
  readonly worstNeck: WorstNeck | null
  /** Proven: no plan gets every net out on fewer signal layers; null where no number is enough. */
  readonly atLeastLayers: number | null
  /** Rules of thumb for these vias, beside the plan. */
  readonly rules: readonly LayerRule[]
  /** Null where nets stay inside. */
  readonly cost: { readonly rank: number; readonly basis: string } | null
  /** Layers that no hole reaches, holes that are not to be had, and vias that are not counted beside necks. */
  readonly notes: readonly string[]
  /** Places where the plan broke a clearance rule before the nets concerned were withdrawn: a fault of the planner. */
  readonly faults: number
}

export interface LongestNeck {
  readonly length: Metres
  readonly net: string
  readonly ball: string
  readonly layer: number
}

/** All packages of a board, or the one named. Throws RangeError where the board has none of that name. */
export function compareTechnologies(board: Board, packageName: string | null): TechnologyComparison[] {
  const packs = packageName === null ? board.packages : [packageOf(board, packageName)]
  const judge = new NeckJudge(board)
  return packs.map((pack) => comparePackage(board, pack, judge))
}

interface Built {
  readonly variant: Variant
  readonly pack: Package
  readonly plan: EscapePlan | null
}

function comparePackage(board: Board, pack: Package, judge: NeckJudge): TechnologyComparison {
  const planned = new Map<Board, Map<ViaTechnology, EscapePlan>>()
  const built = variantsOf(board, pack, (netClass) => judge.mainWidth(netClass)).map((variant): Built => {
    const own = packageOf(variant.board, pack.name)
    if (variant.state === 'cannot be built') return { variant, pack: own, plan: null }
    const plans = planned.get(variant.board) ?? new Map<ViaTechnology, EscapePlan>()
    planned.set(variant.board, plans)
    const plan = plans.get(variant.technology) ?? planOf(variant, own, judge)
    plans.set(variant.technology, plan)
    return { variant, pack: own, plan }
  })
  const costs = costsOf(built)
  const outcomes = new Map<EscapePlan, Outcome>()
  const rows = built.map(({ variant, pack: own, plan }, index): TechnologyRow => {
    const { id, change, state, technology, assumed } = variant
    if (plan === null) return { id, change, state, technology, assumed, outcome: null }
    const outcome = outcomes.get(plan) ?? outcomeOf(variant, own, plan, costs[index] ?? null, judge)
    outcomes.set(plan, outcome)
    return { id, change, state, technology, assumed, outcome }
  })
  const signalLayers = board.stackup.copper.filter(({ role }) => role !== 'plane').length
  return { package: pack.name, signals: signalCount(pack), signalLayers, rows, costRules: COST_RULES }
}

/** With necks as long as their main routes take to begin, as the review has them. */
function planOf({ board, technology }: Variant, pack: Package, judge: NeckJudge): EscapePlan {
  const plan = planEscape(board, pack, technology)
  return withMains(board, pack, plan, (netClass, layer) => judge.mainWidthOn(netClass, layer)).plan
}

function costsOf(built: readonly Built[]): Outcome['cost'][] {
  const marks = built.map(({ variant, pack, plan }) =>
    plan === null || plan.unescaped.length > 0 ? null : costMarks(variant.board, pack, plan),
  )
  // Ways that are built as described do not count twice.
  const different = built.map(({ variant }, index) =>
    variant.id === 'as described' || variant.state === 'differs' ? (marks[index] ?? null) : null,
  )
  const ranks = costRanks(different)
  return built.map(({ variant }, index) => {
    const each = marks[index] ?? null
    const rank = ranks[index] ?? ranks[0] ?? null
    return each === null || rank === null ? null : { rank, basis: costText(each, variant.board) }
  })
}

function outcomeOf(
  { board, technology }: Variant,
  pack: Package,
  plan: EscapePlan,
  cost: Outcome['cost'],
  judge: NeckJudge,
): Outcome {
  const { routes, unescaped } = plan
  const longest = routes.reduce<(typeof routes)[number] | null>(
    (most, route) => (most === null || route.neckLength > most.neckLength ? route : most),
    null,
  )
  const job = planJob(board, pack, technology)
  const layersReached = layersFor(job, null).length
  const rules = layerRules(ruleInput(board, pack, signalCount(pack), technology))
  return {
    signalLayers: plan.layers.filter(({ escaped }) => escaped > 0).length,
    layersReached,
    layersNeeded: layersNeeded(plan, layersReached),
    netsOut: routes.length,
    unescaped: unescaped.length,
    whyNot: unescaped[0] === undefined ? null : `${unescaped[0].ball}: ${unescaped[0].reason}`,
    longestNeck: longest && {
      length: longest.neckLength,
      net: longest.net,
      ball: longest.ball,
      layer: longest.exitLayer,
    },
    worstNeck: judge.judge(board, routes),
    atLeastLayers: plan.atLeastLayers,
    rules: rules.filter((rule) => rule.technology === technology || rule.technology === 'any'),
    cost,
    notes: holesNote(job),
    faults: plan.check.faults.length,
  }
}

/** Layers that the plan was offered are not enough where nets stay inside on them. */
function layersNeeded({ layers, unescaped, atLeastLayers }: EscapePlan, reached: number): string {
  if (unescaped.length === 0) return String(layers.filter(({ escaped }) => escaped > 0).length)
  if (atLeastLayers === null && reached === layers.length) return 'no number is enough'
  return reached === layers.length ? `more than ${reached}` : `more than the ${reached} that are reached`
}
