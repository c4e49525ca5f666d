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
 * On the layer of the lands a ball that fails keeps a dog-bone and a via, which may stand in the way of those that were
 * let out as if it did not: then the layer is filled again with only those that left, until all of them do. After that
 * the others are tried once more, each with the room where its own via would stand, but not that of others.
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
  const runners = waiting.flatMap((unit): Runner[] => {
    const netClass = unit.members[0]?.netClass
    return netClass === undefined ? [] : [{ unit, neck: task.neckFor(netClass) }]
  })
  const route = (
    running: readonly Runner[],
    current: BallStates,
    leaving: ReadonlySet<number>,
  ): LayerTraces =>
    routeLayer(task, layerGround(job, layer, current), { runners: running, mayPart, leaving }, before)
  if (layer !== job.landLayer) return route(runners, states, new Set())
  const stable = untilAllLeave(runners, (running, leaving) =>
    route(running, statesWith(states, leaving, 'stays'), leaving),
  )
  return whileMoreLeave(stable, (leaving) => route(runners, statesWith(states, leaving, 'tries'), leaving))
}

/** Drops what fails until everything that is tried leaves. */
function untilAllLeave(
  runners: readonly Runner[],
  route: (running: readonly Runner[], leaving: ReadonlySet<number>) => LayerTraces,
): LayerTraces {
  let running = runners
  const refused = new Map<number, number>()
  for (;;) {
    const trying = new Set(running.flatMap(({ unit }) => unit.members.map(({ ball }) => ball)))
    const result = route(running, trying)
    for (const [ball, places] of result.refused) refused.set(ball, places)
    const left = running.flatMap((runner) => leavingPart(runner, result.traces))
    const failed = running.length !== left.length || running.some((runner, index) => runner !== left[index])
    if (!failed) return { traces: result.traces, refused }
    running = left
  }
}

/** Adds what leaves besides all that does already, until nothing more does. */
function whileMoreLeave(
  stable: LayerTraces,
  route: (leaving: ReadonlySet<number>) => LayerTraces,
): LayerTraces {
  let best = stable
  for (;;) {
    const leaving = new Set(best.traces.keys())
    const next = route(leaving)
    const more = next.traces.size > leaving.size && [...leaving].every((ball) => next.traces.has(ball))
    if (!more) return { traces: best.traces, refused: next.refused }
    best = next
  }
}

/** What the balls that leave, and those that only try to, are known to do. */
function statesWith(
  states: BallStates,
  leaving: ReadonlySet<number>,
  others: 'tries' | 'stays',
): readonly (BallState | undefined)[] {
  return states.map((state, ball) =>
    state?.kind === 'tries' ? { kind: leaving.has(ball) ? 'leaves' : others, asked: state.asked } : state,
  )
}

/** What is left of a runner: itself where all its balls leave. */
function leavingPart(runner: Runner, traces: ReadonlyMap<number, LaidTrace>): Runner[] {
  const members = runner.unit.members.filter(({ ball }) => traces.has(ball))
  if (members.length === runner.unit.members.length) return [runner]
  return members.length === 0 ? [] : [{ ...runner, unit: { ...runner.unit, members } }]
}
