import { hypotenuse } from '../../numerics/hypotenuse.ts'
import type { Metres, Point } from '../../units/quantity.ts'
import { chamfered } from './chamfer.ts'
import { STEPS_PER_METRE } from './latticeSteps.ts'
import type { DisjointPaths } from './disjointPaths.ts'
import { drawnPath } from './drawnPath.ts'
import type { LaidTrace } from './laidTrace.ts'
import { sideOf } from './lattice.ts'
import type { Lattice } from './lattice.ts'
import type { LayerCopper, TraceNeeds } from './layerCopper.ts'
import type { LayerGround } from './layerGround.ts'
import type { LayerTask } from './layerTask.ts'
import { besideLine, coupledLength, joinsKeepApart, joinsTo } from './pairLines.ts'
import type { Join } from './pairLines.ts'
import { passPaths } from './passPaths.ts'
import type { Pass } from './passes.ts'
import type { Runner } from './waiting.ts'

/** Places about a pair that are tried as the point where its two traces come together. */
const MEETINGS = 16

/** What a pass of pairs comes to. */
export interface CoupledTraces {
  readonly traces: readonly LaidTrace[]
  /** Pairs that find a way out, but would run side by side for too little of it to be worth their gap. */
  readonly apart: ReadonlySet<Runner>
}

/** A crossing at which the two of a pair may come together. */
interface Meeting {
  readonly node: number
  /** Whether the way out from it may be as long as the way of either trace to it. */
  readonly runsLongEnough: boolean
}

interface JoinedTrace {
  readonly path: Point[]
  readonly coupledLength: Metres
}

/**
 * Pairs routed as one wide trace each, from a crossing near their two balls where the traces come together; the two
 * then run at their gap on either side of the middle line. Where the balls cannot be led to it, the pair does
 * not leave this way. Nor does it where one of its traces would run further by itself, from its ball to where the two
 * come together, than along the other: most of that trace would have the impedance of a single one, and the gap, which
 * costs it its width, would serve the lesser part.
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
    const { lattice, flow } = passPaths(task, ground, pass, present)
    this.#lattice = lattice
    this.#flow = flow
  }

  /** Traces of the pairs that leave side by side. */
  result(): CoupledTraces {
    const meetings = new Map<Runner, number>()
    const apart = new Set<Runner>()
    for (const runner of this.#pass.runners) {
      const places = this.#meetingsOf(runner)
      const worthwhile = places.filter(({ runsLongEnough }) => runsLongEnough)
      if (places.length > 0 && worthwhile.length === 0) apart.add(runner)
      const found = worthwhile
        .slice(0, MEETINGS)
        .find(({ node }) => this.#flow.mayBegin(node) && this.#flow.connect(node))
      if (found !== undefined) meetings.set(runner, found.node)
    }
    const traces = [...meetings].flatMap(([runner, node]) => {
      const laid = this.#tracesOf(runner, node)
      if (laid === 'too short') apart.add(runner)
      return laid === 'too short' ? [] : laid
    })
    return { traces, apart }
  }

  /** Crossings near both balls from which a way leads out, the shortest way first. */
  #meetingsOf({ unit, neck }: Runner): Meeting[] {
    const [one, other] = unit.members.map(({ ball }) => this.#ground.starts[ball])
    if (one === undefined || other === undefined) return []
    const { pitch } = this.#task.job.pack
    const reach = 0.75 * Math.max(pitch.x, pitch.y)
    const [lattice, flow] = [this.#lattice, this.#flow]
    const { width, gap } = neck.coupled ?? { width: 0, gap: 0 }
    const found: (Meeting & { length: Metres })[] = []
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
        const joins = [one, other].map((start) => hypotenuse(x - start.x, y - start.y))
        found.push({
          node,
          length: joins.reduce((sum, join) => sum + join, out),
          // The rails begin half the distance between the two beside the crossing.
          runsLongEnough: out >= Math.max(...joins) - (width + gap) / 2,
        })
      }
    }
    return found.toSorted((a, b) => a.length - b.length)
  }

  /** Both traces of a pair that has a way out; none where its balls cannot be led to it. */
  #tracesOf({ unit, neck }: Runner, node: number): LaidTrace[] | 'too short' {
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
    if (joined === null || joined === 'too short') return joined ?? []
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

  /**
   * The two balls led to the two rails, either way round, by the shortest clear pieces; null where none are, and told
   * where all that are leave too little of a rail.
   */
  #joined(
    ends: readonly { readonly start: Point | undefined; readonly needs: TraceNeeds }[],
    rails: readonly [readonly Point[], readonly Point[]],
  ): JoinedTrace[] | 'too short' | null {
    const [one, other] = ends
    if (one?.start === undefined || other?.start === undefined) return null
    const { start } = one
    const { start: otherStart } = other
    const { width } = one.needs
    const apart =
      width + one.needs.gapTo(other.needs.ball) - this.#task.job.board.analysis.comparisonTolerance
    const best = [rails, [rails[1], rails[0]] as const].reduce<Joined>(
      (known, [mine, yours]) => {
        const isClear = this.#remembered(mine, one.needs)
        const isOtherClear = this.#remembered(yours, other.needs)
        const fits = (first: Join, second: Join): boolean =>
          isClear(first) && isOtherClear(second) && joinsKeepApart(first, second, apart)
        return shorterPair(joinsTo(start, mine), joinsTo(otherStart, yours), fits, known)
      },
      { traces: null, total: Infinity },
    )
    return best.traces
  }

  /** Whether a join is clear, looked at once, and only where it could serve. Joins have most of their rail in common. */
  #remembered(rail: readonly Point[], needs: TraceNeeds): (join: Join) => boolean {
    const known = new Map<Join, boolean>()
    let isRailClear: boolean | null = null
    const isClear = ({ path }: Join): boolean => {
      const joined = path.findIndex((point) => point === rail[1])
      if (joined === -1) return this.#copper.isPathClear(path, needs)
      isRailClear ??= this.#copper.isPathClear(path.slice(joined), needs)
      return isRailClear && this.#copper.isPathClear(path.slice(0, joined + 1), needs)
    }
    return (join) => {
      const found = known.get(join) ?? isClear(join)
      known.set(join, found)
      return found
    }
  }

  #wideNeeds(one: number, other: number): TraceNeeds {
    const needs = this.#task.needsOf(one, this.#pass.width, null)
    return { ...needs, gapTo: (ball) => (ball === other ? 0 : needs.gapTo(ball)) }
  }
}

/** A pair led to its rails, and the length of both traces; Infinity where none is worthwhile. */
interface Joined {
  readonly traces: JoinedTrace[] | 'too short' | null
  readonly total: Metres
}

/** The shortest two joins that fit and are worthwhile, where they are shorter than what is known. */
function shorterPair(
  joins: readonly Join[],
  otherJoins: readonly Join[],
  fits: (one: Join, other: Join) => boolean,
  known: Joined,
): Joined {
  let best = known
  for (const first of joins) {
    for (const second of otherJoins) {
      const total = first.length + second.length
      if (total >= best.total) continue
      const isLong = runsLongEnough(first, second) && runsLongEnough(second, first)
      if ((!isLong && best.traces !== null) || !fits(first, second)) continue
      best = isLong
        ? { traces: [joinedTrace(first, second), joinedTrace(second, first)], total }
        : { traces: 'too short', total: Infinity }
    }
  }
  return best
}

/** False where a trace runs further by itself than beside the other. */
function runsLongEnough(own: Join, other: Join): boolean {
  return own.length <= 2 * coupledLength(own, other)
}

function joinedTrace(own: Join, other: Join): JoinedTrace {
  return { path: own.path, coupledLength: coupledLength(own, other) }
}

function linesWithin(lines: Float64Array, low: Metres, high: Metres): number[] {
  const within: number[] = []
  for (let index = 0; index < lines.length; index += 1) {
    const at = lines[index] ?? NaN
    if (at >= low && at <= high) within.push(index)
  }
  return within
}
