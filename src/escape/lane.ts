import type { Metres } from '../units/quantity.ts'
import type { Ground } from './ground.ts'
import type { Side, Stand } from './side.ts'
import { wallsOf } from './walls.ts'
import type { Walls } from './walls.ts'

/**
 * The straight way out between two neighbouring lines on which something stands. Where whole lines are
 * empty in the near half of the grid, the lane is as wide as the gap they leave.
 */
export interface Lane {
  readonly side: Side
  readonly leftLine: number
  readonly rightLine: number
  /** What is clear for the edges of traces of which the deepest starts at `depth`. */
  bounds(depth: number): { readonly low: Metres; readonly high: Metres }
}

/** One side of a layer: its lanes, and what blocks the way straight ahead. */
export interface Front {
  readonly side: Side
  readonly lanes: readonly Lane[]
  /** The lanes to the left and right of a line; null beyond the outermost and where no line stands. */
  besides(line: number): { readonly left: Lane | null; readonly right: Lane | null }
  /** True where a trace of this width runs straight out along its own line. */
  straightAhead(stand: Stand, along: Metres, width: Metres): boolean
}

/**
 * Splits one side into lanes.
 * @param clearance From the centre of a line to the nearest edge of a trace in the next lane, so that a net
 * which leaves straight along the line has room as well.
 */
export function frontOf(ground: Ground, side: Side, clearance: Metres): Front {
  const walls = wallsOf(side, ground.sites, ground.reach)
  const between = ground.between && wallsOf(side, ground.between.sites, ground.between.reach)
  const standing = standingLines(ground, side)
  const lanes: Lane[] = []
  const rightOf = new Map<number, Lane>()
  const leftOf = new Map<number, Lane>()
  for (const [index, line] of standing.entries()) {
    const next = standing[index + 1]
    if (next === undefined) continue
    const lane = laneBetween(side, line, next, walls, between, clearance)
    lanes.push(lane)
    rightOf.set(line.line, lane)
    leftOf.set(next.line, lane)
  }
  const foremost = new Map(standing.map(({ line, depth }) => [line, depth]))
  return {
    side,
    lanes,
    besides: (line) => ({ left: leftOf.get(line) ?? null, right: rightOf.get(line) ?? null }),
    straightAhead: ({ line, depth }, along, width) => {
      const half = width / 2 - ground.tolerance / 2
      if (
        ground.field.aligned
          ? (foremost.get(line) ?? depth) < depth
          : blockedAhead(ground, side, { line, depth }, along, half)
      ) {
        return false
      }
      const low = Math.max(walls.left(line - 1, depth + 1), between?.left(line - 1, depth + 1) ?? -Infinity)
      const high = Math.min(walls.right(line + 1, depth + 1), between?.right(line + 1, depth + 1) ?? Infinity)
      return along - half >= low && along + half <= high
    },
  }
}

interface StandingLine {
  readonly line: number
  readonly along: Metres
  /** Depth of the foremost obstacle. */
  readonly depth: number
}

/** Lines with anything on them in the near half. */
function standingLines(ground: Ground, side: Side): StandingLine[] {
  const found: StandingLine[] = []
  for (let line = 0; line < side.lines; line += 1) {
    for (let depth = 0; depth < side.depths; depth += 1) {
      const ball = side.ballAt(line, depth)
      const site = ground.sites[ball]
      if (site === undefined || (ground.reach[ball] ?? 0) === 0) continue
      found.push({ line, along: side.along(site), depth })
      break
    }
  }
  return found
}

function laneBetween(
  side: Side,
  left: StandingLine,
  right: StandingLine,
  walls: Walls,
  between: Walls | null,
  clearance: Metres,
): Lane {
  return {
    side,
    leftLine: left.line,
    rightLine: right.line,
    bounds: (depth) => ({
      low: Math.max(
        left.along + clearance,
        walls.left(left.line, depth),
        // A dog-bone via stands half a step further out than its land.
        between?.left(left.line, depth + 1) ?? -Infinity,
      ),
      high: Math.min(
        right.along - clearance,
        walls.right(right.line, depth),
        between?.right(right.line, depth + 1) ?? Infinity,
      ),
    }),
  }
}

/** Off the grid, what stands ahead on the same line need not be in the way. */
function blockedAhead(
  ground: Ground,
  side: Side,
  from: { readonly line: number; readonly depth: number },
  along: Metres,
  half: Metres,
): boolean {
  for (let depth = 0; depth < from.depth; depth += 1) {
    const ball = side.ballAt(from.line, depth)
    const site = ground.sites[ball]
    const reach = ground.reach[ball] ?? 0
    if (site !== undefined && reach > 0 && Math.abs(side.along(site) - along) < reach + half) return true
  }
  return false
}
