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
  const { balls, rows, columns } = job.pack
  const { starts, own } = ground
  const lines: SiteLines = {
    columns: linesOf(
      own,
      balls.map(({ column }) => column),
      starts.map(({ x }) => x),
      columns,
    ),
    levels: linesOf(
      own,
      balls.map(({ row }) => rows - 1 - row),
      starts.map(({ y }) => y),
      rows,
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

/** What stands in one row or column. */
interface Standing {
  readonly at: Metres[]
  reach: Metres
  leastReach: Metres
}

/**
 * @param own What stands at each ball; 0 for nothing.
 * @param placeOf Row or column of each ball, from 0 and below `places`.
 * @param along Where each ball's net starts.
 */
function linesOf(
  own: readonly Metres[],
  placeOf: readonly number[],
  along: readonly Metres[],
  places: number,
): Lines {
  const standing = Array.from({ length: places }, (): Standing => ({
    at: [],
    reach: 0,
    leastReach: Infinity,
  }))
  for (let ball = 0; ball < own.length; ball += 1) {
    const reach = own[ball] ?? 0
    const line = standing[placeOf[ball] ?? -1]
    if (reach === 0 || line === undefined) continue
    line.at.push(along[ball] ?? NaN)
    line.reach = Math.max(line.reach, reach)
    line.leastReach = Math.min(line.leastReach, reach)
  }
  const used = standing.filter(({ at }) => at.length > 0)
  let count = 0
  const indexOf = standing.map(({ at }) => (at.length > 0 ? count++ : -1))
  return {
    lines: used.map(({ at, reach, leastReach }) => ({ at: middle(at), reach, leastReach })),
    lineOf: own.map((reach, ball) => (reach > 0 ? (indexOf[placeOf[ball] ?? -1] ?? -1) : -1)),
  }
}

function middle(values: readonly Metres[]): Metres {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN
}

/** Index of the line of each site line. */
function placesOf(lines: readonly LaneLine[]): number[] {
  return lines.flatMap(({ site }, index) => (site === -1 ? [] : [index]))
}
