import type { Metres, Point } from '../../units/quantity.ts'
import { chamfered } from './chamfer.ts'
import { connectInTurn } from './connectInTurn.ts'
import { CoupledPass } from './coupledPass.ts'
import { drawnPath } from './drawnPath.ts'
import type { LaidTrace } from './laidTrace.ts'
import { sideOf } from './lattice.ts'
import { LayerCopper } from './layerCopper.ts'
import type { LayerGround } from './layerGround.ts'
import type { LayerTask } from './layerTask.ts'
import { passesOf } from './passes.ts'
import type { Pass } from './passes.ts'
import { passPaths } from './passPaths.ts'
import type { PassPaths } from './passPaths.ts'
import type { Runner, Waiting } from './waiting.ts'

/** What one layer lets out, and what it refuses. */
export interface LayerTraces {
  readonly traces: Map<number, LaidTrace>
  /**
   * For each refused ball that has no way out along the lanes even if all others moved: how many places, each taken by
   * another trace, lie on every way out; 0 where what stands there closes them all.
   */
  readonly refused: Map<number, number>
}

/**
 * Traces for as many of the waiting units as the layer takes, by ball. Pass after pass: what an earlier one laid
 * stands in the way of the later ones.
 * @param before Traces that lie on the layer already.
 */
export function routeLayer(
  task: LayerTask,
  ground: LayerGround,
  waiting: Waiting,
  before: readonly LaidTrace[],
): LayerTraces {
  const copper = copperOf(task, ground, before)
  const laid = new Map<number, LaidTrace>()
  const refused = new Map<number, number>()
  for (const pass of passesOf(waiting.runners, task.tracksOf)) {
    const present = [...before, ...laid.values()]
    const lay = (traces: readonly LaidTrace[]): void => {
      for (const trace of traces) laid.set(trace.ball, trace)
    }
    if (!pass.coupled) {
      lay(singles(task, ground, pass, waiting, present, copper, refused))
      continue
    }
    const { traces, apart } = new CoupledPass(task, ground, pass, present, copper).result()
    lay(traces)
    const parted = pass.runners.filter(
      (runner) =>
        apart.has(runner) || (waiting.mayPart && !runner.unit.members.every(({ ball }) => laid.has(ball))),
    )
    if (parted.length === 0) continue
    lay(singles(task, ground, partedPass(pass, parted), waiting, [...present, ...traces], copper, refused))
  }
  return { traces: withoutFaulty(task, copper, laid), refused }
}

/** The same pairs in lanes of their own for each trace. */
function partedPass(pass: Pass, runners: readonly Runner[]): Pass {
  const widest = (of: (runner: Runner) => Metres): Metres => Math.max(...runners.map(of))
  return {
    ...pass,
    coupled: false,
    width: widest(({ neck }) => neck.width),
    gap: widest(({ neck }) => neck.traceGap),
    runners,
  }
}

function singles(
  task: LayerTask,
  ground: LayerGround,
  pass: Pass,
  waiting: Waiting,
  present: readonly LaidTrace[],
  copper: LayerCopper,
  refused: Map<number, number>,
): LaidTrace[] {
  const { pitch } = task.job.pack
  const balls = pass.runners.flatMap(({ unit }) => unit.members.map(({ ball }) => ball))
  const paths = passPaths(task, ground, pass, present)
  const { flow, startOf } = paths
  connectInTurn(flow, pass.runners, startOf, waiting, Math.min(pitch.x, pitch.y))
  const places = flow.cutNodes().length
  for (const ball of balls) {
    const start = startOf[ball] ?? -1
    if (start !== -1 && !flow.isConnected(start) && flow.isBehindCut(start)) refused.set(ball, places)
  }
  return laidBy(task, ground, pass, paths, copper)
}

function laidBy(
  task: LayerTask,
  ground: LayerGround,
  pass: Pass,
  { flow, lattice, startOf }: PassPaths,
  copper: LayerCopper,
): LaidTrace[] {
  const drawn = pass.runners.flatMap(({ unit, neck }) =>
    unit.members.flatMap(({ ball }) => {
      const path = flow.pathOf(startOf[ball] ?? -1)
      const start = ground.starts[ball]
      if (path === null || start === undefined) return []
      const points = drawnPath(lattice, path, start)
      return [{ ball, path: points, width: neck.width, leaves: sideOf(path.exit), mate: null }]
    }),
  )
  const needs = new Map(drawn.map(({ ball, width }) => [ball, task.needsOf(ball, width, null)]))
  for (const { ball, path } of drawn) {
    const own = needs.get(ball)
    if (own !== undefined) copper.addTrace(path, own)
  }
  return drawn.map((trace) => {
    const own = needs.get(trace.ball)
    if (own === undefined) return trace
    copper.removeTrace(trace.path, trace.ball)
    const path = chamfered(trace.path, straightEnd(ground, trace.path), (from, to) =>
      copper.isClear(from, to, own),
    )
    copper.addTrace(path, own)
    return { ...trace, path }
  })
}

/** How much of the last leg stays straight: what lies outside the outermost half pitch. */
function straightEnd({ ends }: LayerGround, path: readonly Point[]): Metres {
  const last = path.at(-1)
  const before = path.at(-2)
  if (last === undefined || before === undefined) return 0
  const length = Math.abs(last.x - before.x) + Math.abs(last.y - before.y)
  return Math.min(length / 2, (ends.right - ends.left) / 100)
}

function copperOf(task: LayerTask, ground: LayerGround, before: readonly LaidTrace[]): LayerCopper {
  const { job } = task
  const cell = Math.min(job.pack.pitch.x, job.pack.pitch.y)
  const copper = new LayerCopper(cell, ground.ends, job.board.analysis.comparisonTolerance, task.areas)
  for (let ball = 0; ball < ground.own.length; ball += 1) {
    const at = ground.starts[ball]
    const reach = ground.own[ball] ?? 0
    if (at !== undefined && reach > 0) copper.addDisc({ ball, at, reach })
  }
  for (const disc of ground.between) copper.addDisc(disc)
  for (const disc of ground.ifFailed.vias) copper.addDisc(disc)
  for (const { ball, from, to, width } of [...ground.bones, ...ground.ifFailed.bones])
    copper.addTrace([from, to], task.needsOf(ball, width, null))
  for (const { ball, path, width, mate } of before) copper.addTrace(path, task.needsOf(ball, width, mate))
  return copper
}

/**
 * Off the grid, a net may start beside its node, and what stands may lie beside its line: traces that come too near
 * to anything then are taken out again, with their mates.
 */
function withoutFaulty(
  task: LayerTask,
  copper: LayerCopper,
  laid: Map<number, LaidTrace>,
): Map<number, LaidTrace> {
  const kept = new Map(laid)
  for (const trace of laid.values()) {
    const needs = task.needsOf(trace.ball, trace.width, trace.mate)
    if (copper.isPathClear(trace.path, needs)) continue
    for (const ball of [trace.ball, ...(trace.mate === null ? [] : [trace.mate.ball])]) {
      const other = kept.get(ball)
      if (other === undefined) continue
      copper.removeTrace(other.path, ball)
      kept.delete(ball)
    }
  }
  return kept
}
