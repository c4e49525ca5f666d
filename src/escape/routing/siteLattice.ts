import type { Metres } from '../../units/quantity.ts'
import type { PlanJob } from '../planJob.ts'
import { laneLines } from './laneLines.ts'
import type { LaneLine, SiteLine, TraceRules } from './laneLines.ts'
import { Lattice } from './lattice.ts'
import type { LayerGround } from './layerGround.ts'

/** A lattice laid between the places of a layer, and the node at which each ball's net starts. */
export interface SiteLattice {
  readonly lattice: Lattice
  /** By index of the ball; −1 where its row or column holds nothing on this layer. */
  readonly startOf: readonly number[]
}

/**
 * Site lines are the rows and columns on which something stands or from which a net starts; rows and columns
 * that hold nothing leave a wider street. A line lies at the middle of its places.
 */
export function siteLattice(
  job: PlanJob,
  ground: LayerGround,
  rules: TraceRules,
  packed: boolean,
): SiteLattice {
  const { columns, levels } = siteLines(job, ground)
  const across = laneLines(columns.lines, rules, packed)
  const upwards = laneLines(levels.lines, rules, packed)
  const lattice = new Lattice(across, upwards, ground.ends)
  const acrossAt = placesOf(across)
  const upwardsAt = placesOf(upwards)
  const startOf = columns.lineOf.map((column, ball) => {
    const x = acrossAt[column] ?? -1
    const y = upwardsAt[levels.lineOf[ball] ?? -1] ?? -1
    return x === -1 || y === -1 ? -1 : lattice.nodeAt(x, y)
  })
  return { lattice, startOf }
}

interface SiteLines {
  readonly columns: Lines
  readonly levels: Lines
}

/** One ground serves several passes. */
const known = new WeakMap<LayerGround, SiteLines>()

function siteLines(job: PlanJob, ground: LayerGround): SiteLines {
  const found = known.get(ground)
  if (found !== undefined) return found
  const { balls, rows } = job.pack
  const lines: SiteLines = {
    columns: linesOf(
      job,
      ground,
      (ball) => balls[ball]?.column ?? 0,
      ({ x }) => x,
    ),
    levels: linesOf(
      job,
      ground,
      (ball) => rows - 1 - (balls[ball]?.row ?? 0),
      ({ y }) => y,
    ),
  }
  known.set(ground, lines)
  return lines
}

interface Lines {
  readonly lines: SiteLine[]
  /** Index of the line of each ball; −1 where nothing stands at it. At every ball that waits something does. */
  readonly lineOf: readonly number[]
}

function linesOf(
  job: PlanJob,
  ground: LayerGround,
  placeOf: (ball: number) => number,
  along: (point: { readonly x: Metres; readonly y: Metres }) => Metres,
): Lines {
  const standing = ground.own.map((reach) => reach > 0)
  const byPlace = new Map<number, { at: Metres[]; reach: Metres; leastReach: Metres }>()
  for (const ball of job.pack.balls.keys()) {
    const start = ground.starts[ball]
    if (standing[ball] !== true || start === undefined) continue
    const reach = ground.own[ball] ?? 0
    const known = byPlace.get(placeOf(ball))
    if (known === undefined) byPlace.set(placeOf(ball), { at: [along(start)], reach, leastReach: reach })
    else {
      known.at.push(along(start))
      known.reach = Math.max(known.reach, reach)
      known.leastReach = Math.min(known.leastReach, reach)
    }
  }
  const places = [...byPlace].toSorted(([a], [b]) => a - b)
  const indexOf = new Map(places.map(([place], index) => [place, index]))
  return {
    lines: places.map(([, { at, reach, leastReach }]) => ({ at: middle(at), reach, leastReach })),
    lineOf: standing.map((stands, ball) => (stands ? (indexOf.get(placeOf(ball)) ?? -1) : -1)),
  }
}

function middle(values: readonly Metres[]): Metres {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN
}

/** Index of the line of each site line. */
function placesOf(lines: readonly LaneLine[]): number[] {
  return lines.flatMap(({ site }, index) => (site === -1 ? [] : [index]))
}
