import { pathLength } from '../../routes/pathLength.ts'
import type { Metres, Point } from '../../units/quantity.ts'
import { chamfered } from './chamfer.ts'
import { DisjointPaths, STEPS_PER_METRE } from './disjointPaths.ts'
import { drawnPath } from './drawnPath.ts'
import type { LaidTrace } from './laidTrace.ts'
import { sideOf, wayOf } from './lattice.ts'
import type { Lattice } from './lattice.ts'
import { closeOccupied } from './latticeWays.ts'
import type { LayerCopper, TraceNeeds } from './layerCopper.ts'
import type { LayerGround } from './layerGround.ts'
import type { LayerTask } from './layerTask.ts'
import { besideLine, joinsKeepApart, joinsTo } from './pairLines.ts'
import type { Pass } from './passes.ts'
import { siteLattice } from './siteLattice.ts'
import type { Runner } from './waiting.ts'

/** Places about a pair that are tried as the point where its two traces come together. */
const MEETINGS = 16

/**
 * Pairs routed as one wide trace each, from a crossing near their two balls where the traces come together; the two
 * then run at their gap on either side of the middle line. Where the balls cannot be led to it, the pair does
 * not leave this way.
 */
export class CoupledPass {
  readonly #task: LayerTask
  readonly #ground: LayerGround
  readonly #pass: Pass
  readonly #copper: LayerCopper
  readonly #lattice: Lattice
  readonly #flow: DisjointPaths

  constructor(
    task: LayerTask,
    ground: LayerGround,
    pass: Pass,
    present: readonly LaidTrace[],
    copper: LayerCopper,
  ) {
    this.#task = task
    this.#ground = ground
    this.#pass = pass
    this.#copper = copper
    const rules = { width: pass.width, gap: pass.gap, tolerance: task.job.board.analysis.comparisonTolerance }
    const sites = siteLattice(task.job, ground, rules, true)
    this.#lattice = sites.lattice
    const one = pass.runners[0]?.unit.members[0]?.ball ?? -1
    closeOccupied(sites, ground, new Set(), present, task.areas, rules, (ball) => {
      const netClass = task.job.classOf[ball]
      return Math.max(netClass === undefined ? 0 : task.neckFor(netClass).traceGap, task.job.apart(ball, one))
    })
    const only = pass.side === null ? null : wayOf(pass.side)
    this.#flow = new DisjointPaths(
      this.#lattice,
      [],
      (node) => this.#lattice.open[node] === 0,
      (way) => only === null || way === only,
    )
  }

  traces(): LaidTrace[] {
    const meetings = new Map<Runner, number>()
    for (const runner of this.#pass.runners) {
      const node = this.#meetingsOf(runner).find(
        (each) => this.#flow.mayBegin(each) && this.#flow.connect(each),
      )
      if (node !== undefined) meetings.set(runner, node)
    }
    return [...meetings].flatMap(([runner, node]) => this.#tracesOf(runner, node))
  }

  /** Crossings near both balls from which a way leads out, the shortest way first. */
  #meetingsOf({ unit }: Runner): number[] {
    const [one, other] = unit.members.map(({ ball }) => this.#ground.starts[ball])
    if (one === undefined || other === undefined) return []
    const { pitch } = this.#task.job.pack
    const reach = 0.75 * Math.max(pitch.x, pitch.y)
    const [lattice, flow] = [this.#lattice, this.#flow]
    const found: { node: number; length: Metres }[] = []
    const columns = linesWithin(
      lattice.xs,
      Math.min(one.x, other.x) - reach,
      Math.max(one.x, other.x) + reach,
    )
    const rows = linesWithin(lattice.ys, Math.min(one.y, other.y) - reach, Math.max(one.y, other.y) + reach)
    for (const row of rows) {
      for (const column of columns) {
        const node = lattice.nodeAt(column, row)
        const out = flow.wayOut(node) / STEPS_PER_METRE
        if (!Number.isFinite(out)) continue
        const { x, y } = lattice.pointAt(node)
        const join = Math.hypot(x - one.x, y - one.y) + Math.hypot(x - other.x, y - other.y)
        found.push({ node, length: out + join })
      }
    }
    return found
      .toSorted((a, b) => a.length - b.length)
      .slice(0, MEETINGS)
      .map(({ node }) => node)
  }

  /** Both traces of a pair that has a way out; none where its balls cannot be led to it. */
  #tracesOf({ unit, neck }: Runner, node: number): LaidTrace[] {
    const [one, other] = unit.members
    const path = this.#flow.pathOf(node)
    const { coupled } = neck
    if (one === undefined || other === undefined || path === null || coupled === null) return []
    const wide = this.#wideNeeds(one.ball, other.ball)
    const corners = drawnPath(this.#lattice, path, this.#lattice.pointAt(node))
    const middle = chamfered(corners, 0, (from, to) => this.#copper.isClear(from, to, wide))
    const apart = (coupled.width + coupled.gap) / 2
    const rails = [besideLine(middle, apart), besideLine(middle, 0 - apart)] as const
    const needs = (ball: number, mate: number): TraceNeeds =>
      this.#task.needsOf(ball, coupled.width, { ball: mate, gap: coupled.gap })
    const joined = this.#joined(
      [
        { start: this.#ground.starts[one.ball], needs: needs(one.ball, other.ball) },
        { start: this.#ground.starts[other.ball], needs: needs(other.ball, one.ball) },
      ],
      rails,
    )
    if (joined === null) return []
    const leaves = sideOf(path.exit)
    return [one.ball, other.ball].map((ball, index): LaidTrace => {
      const own = joined[index] ?? { path: [], coupledLength: 0 }
      const mate = {
        ball: index === 0 ? other.ball : one.ball,
        gap: coupled.gap,
        coupledLength: own.coupledLength,
      }
      this.#copper.addTrace(own.path, needs(ball, mate.ball))
      return { ball, path: own.path, width: coupled.width, leaves, mate }
    })
  }

  /** The two balls led to the two rails, either way round, by the shortest clear pieces; null where none are. */
  #joined(
    ends: readonly { readonly start: Point | undefined; readonly needs: TraceNeeds }[],
    rails: readonly [readonly Point[], readonly Point[]],
  ): { path: Point[]; coupledLength: Metres }[] | null {
    const [one, other] = ends
    if (one?.start === undefined || other?.start === undefined) return null
    const { width } = one.needs
    const apart =
      width + one.needs.gapTo(other.needs.ball) - this.#task.job.board.analysis.comparisonTolerance
    const clear = (path: readonly Point[], needs: TraceNeeds): boolean =>
      path.every((to, index) => {
        const from = path[index - 1]
        return from === undefined || this.#copper.isClear(from, to, needs)
      })
    let best: { path: Point[]; coupledLength: Metres }[] | null = null
    let least = Infinity
    for (const [mine, yours] of [rails, [rails[1], rails[0]] as const]) {
      const joins = joinsTo(one.start, mine).filter((join) => clear(join.path, one.needs))
      const otherJoins = joinsTo(other.start, yours).filter((join) => clear(join.path, other.needs))
      for (const first of joins) {
        for (const second of otherJoins) {
          const total = pathLength(first.path) + pathLength(second.path)
          if (total >= least || !joinsKeepApart(first, second, apart)) continue
          least = total
          best = [first, second].map(({ path, railLength }) => ({
            path,
            coupledLength: Math.min(railLength, first.railLength, second.railLength),
          }))
        }
      }
    }
    return best
  }

  #wideNeeds(one: number, other: number): TraceNeeds {
    const needs = this.#task.needsOf(one, this.#pass.width, null)
    return { ...needs, gapTo: (ball) => (ball === other ? 0 : needs.gapTo(ball)) }
  }
}

function linesWithin(lines: Float64Array, low: Metres, high: Metres): number[] {
  return [...lines.keys()].filter((index) => {
    const at = lines[index] ?? NaN
    return at >= low && at <= high
  })
}
