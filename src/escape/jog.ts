import { distanceToSegment } from '../routes/segmentDistance.ts'
import type { Metres, Point } from '../units/quantity.ts'
import type { Ground } from './ground.ts'
import type { Lane } from './lane.ts'
import type { Stand } from './side.ts'

/** Share of the usual rise that is tried, steepest first; 0 leaves along the row and turns square. */
const RISES = [1, 0.5, 0]

/**
 * How far outwards a trace gets while it changes from its ball to its track in the lane: at 45° up to half
 * a pitch, flatter where the place in front is too near. Null where no such way clears the places around.
 */
export function jogRise(
  ground: Ground,
  lane: Lane,
  stand: Stand,
  ball: number,
  track: Metres,
  width: Metres,
): Metres | null {
  const start = ground.sites[ball]
  if (start === undefined) return null
  const { side } = lane
  const outward = side.outward(start)
  const usual = Math.min(Math.abs(track - side.along(start)), side.depthPitch(ground.pitch) / 2)
  for (const share of RISES) {
    const end = side.pointAt(track, outward + share * usual)
    if (
      clearsLands(ground, lane, stand, start, end, width) &&
      clearsBetween(ground, lane, stand, start, end, width)
    ) {
      return share * usual
    }
  }
  return null
}

/** Looks at the places at the corners of the four that the trace turns between, but its own. */
function clearsLands(
  ground: Ground,
  lane: Lane,
  { line, depth }: Stand,
  start: Point,
  end: Point,
  width: Metres,
): boolean {
  const { sites, reach, tolerance } = ground
  const opposite = line === lane.leftLine ? lane.rightLine : lane.leftLine
  const clears = (place: number, placeDepth: number): boolean =>
    clearsPlace(sites, reach, lane.side.ballAt(place, placeDepth), start, end, width - tolerance)
  return clears(opposite, depth) && (depth === 0 || (clears(line, depth - 1) && clears(opposite, depth - 1)))
}

/** Looks at the dog-bone vias that may stand beside the turn, in front of it or behind. */
function clearsBetween(
  ground: Ground,
  lane: Lane,
  { depth }: Stand,
  start: Point,
  end: Point,
  width: Metres,
): boolean {
  if (ground.between === null) return true
  const { sites, reach } = ground.between
  for (let each = Math.max(0, depth - 1); each <= depth + 1; each += 1) {
    for (const line of [lane.leftLine, lane.rightLine]) {
      const ball = lane.side.ballAt(line, each)
      if (!clearsPlace(sites, reach, ball, start, end, width - ground.tolerance)) return false
    }
  }
  return true
}

function clearsPlace(
  sites: readonly Point[],
  reaches: readonly Metres[],
  ball: number,
  start: Point,
  end: Point,
  width: Metres,
): boolean {
  const site = sites[ball]
  const reach = reaches[ball] ?? 0
  return site === undefined || reach === 0 || distanceToSegment(site, start, end) >= reach + width / 2
}
