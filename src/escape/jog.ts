import { distanceToSegment } from '../routes/segmentDistance.ts'
import type { Metres } from '../units/quantity.ts'
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
  const near = placesAround(lane, stand).filter((place) => (ground.reach[place] ?? 0) > 0)
  for (const share of RISES) {
    const rise = share * usual
    const end = side.pointAt(track, outward + rise)
    const clears = near.every((place) => {
      const site = ground.sites[place] ?? start
      const needed = (ground.reach[place] ?? 0) + width / 2 - ground.tolerance / 2
      return distanceToSegment(site, start, end) >= needed
    })
    if (clears) return rise
  }
  return null
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
