import { MinimumHeap } from '../../numerics/minimumHeap.ts'
import type { Metres } from '../../units/quantity.ts'
import { STEPS_PER_METRE } from './latticeSteps.ts'
import type { DisjointPaths } from './disjointPaths.ts'
import type { Runner, Waiting } from './waiting.ts'

/**
 * Connects the runners: those of lower rank first, and among equals always the one whose way out adds least to the
 * length of all, so that as many leave as can and those stay for another layer whose necks would be longest.
 *
 * What a way adds only grows as others are connected, so a runner is looked at again only when it comes first by what
 * was last known of it (M. Minoux, Accelerated greedy algorithms, 1978: lazy evaluation).
 *
 * @param slack Additions that differ by less count as equal; twice as much each time a runner is looked at again, so that
 * hopeless ones are soon known to be.
 */
export function connectInTurn(
  flow: DisjointPaths,
  runners: readonly Runner[],
  startOf: readonly number[],
  { mayPart, leaving }: Pick<Waiting, 'mayPart' | 'leaving'>,
  slack: Metres,
): void {
  const slackSteps = slack * STEPS_PER_METRE
  const ranks = [...new Set(runners.map(({ unit }) => unit.rank))].toSorted((a, b) => (a < b ? -1 : 1))
  for (const runnersOfRank of ranks.flatMap((rank) => {
    const own = runners.filter(({ unit }) => unit.rank === rank)
    const leaves = ({ unit }: Runner): boolean => unit.members.every(({ ball }) => leaving.has(ball))
    return [own.filter(leaves), own.filter((runner) => !leaves(runner))]
  })) {
    const waiting = runnersOfRank
      .map(({ unit }) => unit.members.map(({ ball }) => startOf[ball] ?? -1))
      .filter((starts) => starts.every((node) => node !== -1 && flow.mayBegin(node)))
    const heap = new MinimumHeap()
    for (const [index, starts] of waiting.entries()) heap.push(wayOut(flow, starts), index)
    const margins = waiting.map(() => slackSteps)
    while (heap.size > 0) {
      const index = heap.pop()
      const starts = waiting[index] ?? []
      const margin = margins[index] ?? slackSteps
      if (starts.length > 1) connectPair(flow, starts, mayPart)
      else if (!flow.connect(starts[0] ?? -1, heap.smallestKey + margin)) {
        margins[index] = 2 * margin
        const known = wayOut(flow, starts)
        if (known < Infinity) heap.push(known, index)
      }
    }
  }
}

function wayOut(flow: DisjointPaths, starts: readonly number[]): number {
  return starts.reduce((sum, start) => sum + flow.wayOut(start), 0) / starts.length
}

function connectPair(flow: DisjointPaths, starts: readonly number[], mayPart: boolean): void {
  if (flow.connectAll(starts) || !mayPart) return
  for (const start of starts) flow.connect(start)
}
