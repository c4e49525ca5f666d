import { DisjointPaths } from './disjointPaths.ts'
import type { LaidTrace } from './laidTrace.ts'
import { wayOf } from './lattice.ts'
import { closeOccupied } from './latticeWays.ts'
import type { LayerGround } from './layerGround.ts'
import type { LayerTask } from './layerTask.ts'
import type { Pass } from './passes.ts'
import { siteLattice } from './siteLattice.ts'
import type { SiteLattice } from './siteLattice.ts'

/** The lanes of one pass, open where nothing is in the way, and paths along them: none as yet. */
export interface PassPaths extends SiteLattice {
  readonly flow: DisjointPaths
}

/**
 * Lays the lanes of one pass and closes those on which its traces would come too near to what stands or lies there.
 * Single traces begin at their balls; a pair that runs side by side may begin anywhere, and keeps clear of all balls.
 * @param present Traces that lie on the layer already.
 */
export function passPaths(
  task: LayerTask,
  ground: LayerGround,
  pass: Pass,
  present: readonly LaidTrace[],
): PassPaths {
  const { job } = task
  const balls = pass.runners.flatMap(({ unit }) => unit.members.map(({ ball }) => ball))
  const beginning = pass.coupled ? [] : balls
  const rules = { width: pass.width, gap: pass.gap, tolerance: job.board.analysis.comparisonTolerance }
  const sites = siteLattice(job, ground, rules, pass.coupled)
  const { lattice, startOf } = sites
  // All balls of a pass are of one match group.
  const one = balls[0] ?? -1
  closeOccupied(sites, ground, new Set(beginning), present, task.areas, rules, (ball) => {
    const netClass = job.classOf[ball]
    return Math.max(netClass === undefined ? 0 : task.neckFor(netClass).traceGap, job.apart(ball, one))
  })
  const only = pass.side === null ? null : wayOf(pass.side)
  const flow = new DisjointPaths(
    lattice,
    beginning.map((ball) => startOf[ball] ?? -1).filter((node) => node !== -1),
    (node) => lattice.open[node] === 0,
    (way) => only === null || way === only,
  )
  return { lattice, startOf, flow }
}
