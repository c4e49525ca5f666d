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
  const along = side.along(start)
  const outward = side.outward(start)
  const usual = Math.min(Math.abs(track - along), side.depthPitch(ground.pitch) / 2)
  const near = [
    ...standing(ground.sites, ground.reach, placesAround(lane, stand)),
    ...(ground.between === null
      ? []
      : standing(ground.between.sites, ground.between.reach, placesBetween(lane, stand))),
  ]
  for (const share of RISES) {
    const rise = share * usual
    const end = side.pointAt(track, outward + rise)
    const clears = near.every(({ site, reach }) => {
      const needed = reach + width / 2 - ground.tolerance / 2
      return distanceToSegment(site, start, end) >= needed
    })
    if (clears) return rise
  }
  return null
}

interface Standing {
  readonly site: Point
  readonly reach: Metres
}

function standing(sites: readonly Point[], reaches: readonly Metres[], balls: readonly number[]): Standing[] {
  return balls.flatMap((ball) => {
    const site = sites[ball]
    const reach = reaches[ball] ?? 0
    return site !== undefined && reach > 0 ? [{ site, reach }] : []
  })
}

/** The places at the corners of the four that the trace turns between, but its own. */
function placesAround(lane: Lane, stand: Stand): number[] {
  const { side, leftLine, rightLine } = lane
  const opposite = stand.line === leftLine ? rightLine : leftLine
  return [
    side.ballAt(opposite, stand.depth),
    ...(stand.depth > 0
      ? [side.ballAt(stand.line, stand.depth - 1), side.ballAt(opposite, stand.depth - 1)]
      : []),
  ].filter((ball) => ball >= 0)
}

/** The places whose dog-bone vias may stand beside the turn, in front of it or behind. */
function placesBetween({ side, leftLine, rightLine }: Lane, { depth }: Stand): number[] {
  return [depth - 1, depth, depth + 1].flatMap((each) => {
    if (each < 0) return []
    return [side.ballAt(leftLine, each), side.ballAt(rightLine, each)]
  })
}
