import type { ExitSide } from '../../board/escapeWishes.ts'
import { groupBy } from '../../numerics/groupBy.ts'
import type { Metres } from '../../units/quantity.ts'
import type { Runner } from './waiting.ts'

/** Units that are routed together, by one maximum flow: every lane takes any of them. */
export interface Pass {
  /** True for pairs that run side by side: one lane holds both traces. */
  readonly coupled: boolean
  /** Of one lane: of a trace, or of a pair with the gap between. */
  readonly width: Metres
  readonly gap: Metres
  readonly side: ExitSide | null
  /** Most important first, then outer rings before inner ones. */
  readonly runners: readonly Runner[]
}

/**
 * Parts what waits for a layer into passes, in the order in which they are routed: sides and groups that must hold
 * first, pairs that may run side by side before single traces, wide traces before narrow ones. Narrow traces
 * share the lanes of wider ones where narrower lanes would be no more.
 *
 * @param tracksOf Whole traces through the usual channel, for a width and gap.
 */
export function passesOf(
  runners: readonly Runner[],
  tracksOf: (width: Metres, gap: Metres) => number,
): Pass[] {
  const ordered = runners.toSorted((a, b) =>
    a.unit.rank === b.unit.rank ? a.unit.ring - b.unit.ring : a.unit.rank < b.unit.rank ? -1 : 1,
  )
  const pairs = ordered.filter(runsCoupled)
  const singles = ordered.filter((runner) => !runsCoupled(runner))
  const passes = [
    ...[...groupBy(pairs, constraintOf).values()].flatMap((own) => sameLanes(own, laneOfPair, null, true)),
    ...[...groupBy(singles, constraintOf).values()].flatMap((own) =>
      sameLanes(own, laneOfTrace, tracksOf, false),
    ),
  ]
  return passes.toSorted((a, b) => (rankOf(a) === rankOf(b) ? held(b) - held(a) : rankOf(a) - rankOf(b)))
}

function runsCoupled({ unit, neck }: Runner): boolean {
  return unit.members.length === 2 && neck.coupled !== null
}

interface LaneSize {
  readonly width: Metres
  readonly gap: Metres
}

function laneOfTrace({ neck }: Runner): LaneSize {
  return { width: neck.width, gap: neck.traceGap }
}

function laneOfPair({ neck }: Runner): LaneSize {
  const { width, gap } = neck.coupled ?? { width: neck.width, gap: 0 }
  return { width: 2 * width + gap, gap: neck.traceGap }
}

/** Units that may not share a flow: another side, or a group that keeps its distance. */
function constraintOf({ unit }: Runner): string {
  return `${unit.side ?? ''}|${unit.members[0]?.group ?? ''}`
}

function sameLanes(
  runners: readonly Runner[],
  sizeOf: (runner: Runner) => LaneSize,
  tracksOf: ((width: Metres, gap: Metres) => number) | null,
  coupled: boolean,
): Pass[] {
  const sizes = [...groupBy(runners, (runner) => `${sizeOf(runner).width}|${sizeOf(runner).gap}`).values()]
    .flatMap((own) => (own[0] === undefined ? [] : [{ ...sizeOf(own[0]), own }]))
    .toSorted((a, b) => b.width + b.gap - (a.width + a.gap))
  const passes: { width: Metres; gap: Metres; runners: Runner[] }[] = []
  for (const { width, gap, own } of sizes) {
    const last = passes.at(-1)
    const shared =
      last !== undefined && tracksOf !== null
        ? { width: Math.max(last.width, width), gap: Math.max(last.gap, gap) }
        : null
    if (last !== undefined && shared !== null && tracksOf !== null) {
      if (tracksOf(shared.width, shared.gap) >= tracksOf(width, gap)) {
        last.width = shared.width
        last.gap = shared.gap
        last.runners.push(...own)
        continue
      }
    }
    passes.push({ width, gap, runners: [...own] })
  }
  const places = new Map(runners.map((runner, index) => [runner, index]))
  return passes.map(({ width, gap, runners: own }) => ({
    coupled,
    width,
    gap,
    side: own[0]?.unit.side ?? null,
    runners: own.toSorted((a, b) => (places.get(a) ?? 0) - (places.get(b) ?? 0)),
  }))
}

function rankOf({ runners }: Pass): number {
  const rank = runners.reduce((least, { unit }) => Math.min(least, unit.rank), Infinity)
  return rank === Infinity ? Number.MAX_SAFE_INTEGER : rank
}

function held({ side, coupled, runners }: Pass): number {
  const grouped = runners[0]?.unit.members[0]?.group ?? null
  return (side === null ? 0 : 4) + (grouped === null ? 0 : 2) + (coupled ? 1 : 0)
}
