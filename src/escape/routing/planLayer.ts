import type { PlanJob } from '../planJob.ts'
import type { LaidTrace } from './laidTrace.ts'
import { layerGround } from './layerGround.ts'
import type { BallState, BallStates } from './layerGround.ts'
import { layerTask } from './layerTask.ts'
import { routeLayer } from './routeLayer.ts'
import type { LayerTraces } from './routeLayer.ts'
import type { Runner, Unit } from './waiting.ts'

/**
 * Fills one layer: traces for as many of the waiting units as it takes, by ball.
 *
 * On the layer of the lands a ball that fails keeps a via, and copper to it, which may stand in the way of those that
 * were let out as if it did not: then the layer is filled again with only those that left, until all of them do.
 *
 * @param states What is known of every signal ball; those that may leave here are said to try.
 * @param before Traces that lie on the layer already.
 * @param mayPart Whether the two of a pair may leave one by one, or only one of them.
 */
export function planLayer(
  job: PlanJob,
  layer: number,
  waiting: readonly Unit[],
  states: BallStates,
  before: readonly LaidTrace[],
  mayPart: boolean,
): LayerTraces {
  const task = layerTask(job, layer)
  let runners = waiting.flatMap((unit): Runner[] => {
    const netClass = unit.members[0]?.netClass
    return netClass === undefined ? [] : [{ unit, neck: task.neckFor(netClass) }]
  })
  const refused = new Map<number, number>()
  for (;;) {
    const ground = layerGround(job, layer, statesWhile(states, waiting, runners))
    const result = routeLayer(task, ground, { runners, mayPart }, before)
    const { traces } = result
    for (const [ball, places] of result.refused) refused.set(ball, places)
    const left = runners.flatMap((runner) => leaving(runner, traces))
    const failed = runners.length !== left.length || runners.some((runner, index) => runner !== left[index])
    if (!failed || layer !== job.landLayer) return { traces, refused }
    runners = left
  }
}

/** Balls that are not tried, or tried no longer, stay. */
function statesWhile(
  states: BallStates,
  waiting: readonly Unit[],
  runners: readonly Runner[],
): readonly (BallState | undefined)[] {
  const trying = new Set(runners.flatMap(({ unit }) => unit.members.map(({ ball }) => ball)))
  const current = states.slice()
  for (const { members, asked } of waiting) {
    for (const { ball } of members) if (!trying.has(ball)) current[ball] = { kind: 'stays', asked }
  }
  return current
}

/** What is left of a runner: itself where all its balls leave. */
function leaving(runner: Runner, traces: ReadonlyMap<number, LaidTrace>): Runner[] {
  const members = runner.unit.members.filter(({ ball }) => traces.has(ball))
  if (members.length === runner.unit.members.length) return [runner]
  return members.length === 0 ? [] : [{ ...runner, unit: { ...runner.unit, members } }]
}
