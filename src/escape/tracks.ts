import type { Metres, Point } from '../units/quantity.ts'
import { neckEnd } from './ground.ts'
import type { Ground } from './ground.ts'
import { jogRise } from './jog.ts'
import type { Lane } from './lane.ts'
import { coupled, deepest, gapBetween, inOrder, lengthNeeded } from './laneUsers.ts'
import type { LaneUser } from './laneUsers.ts'
import type { Seating } from './seating.ts'

/** Centre line of every seated ball on the layer, from its place to half a pitch outside the last row. */
export function pathsOf(ground: Ground, seating: Seating): Map<number, readonly Point[]> {
  const paths = new Map<number, readonly Point[]>()
  for (const [ball, seat] of seating.seats) {
    const start = ground.sites[ball]
    if (seat.kind !== 'straight' || start === undefined) continue
    const { side } = seat.stand
    paths.set(ball, [start, side.pointAt(side.along(start), neckEnd(ground, side))])
  }
  for (const lane of seating.lanesInUse()) {
    const users = inOrder(lane, seating.usersOf(lane))
    const tracks = trackCentres(lane, users, Math.max(ground.pitch.x, ground.pitch.y) / 2)
    for (const [index, user] of users.entries()) {
      const start = ground.sites[user.ball]
      const track = tracks[index]
      if (start === undefined || track === undefined) continue
      paths.set(user.ball, lanePath(ground, lane, user, start, track))
    }
  }
  return paths
}

/**
 * Across the lane, centre of each trace. What the traces leave over is shared out equally between them and the
 * lane's edges, but not more than `largest` each, so that a trace in a wide lane stays near its own line.
 * The two of a coupled pair keep their gap.
 */
export function trackCentres(lane: Lane, ordered: readonly LaneUser[], largest: Metres): Metres[] {
  const { low, high } = lane.bounds(deepest(ordered))
  const joints = ordered.filter((user, index) => isJoint(user, ordered[index + 1])).length
  const spare = (high - low - lengthNeeded(ordered)) / (ordered.length + 1 - joints)
  const share = Math.min(spare, largest)
  const firstFromRight = ordered.findIndex(({ stand }) => stand.line !== lane.leftLine)
  const split = firstFromRight === -1 ? ordered.length : firstFromRight
  const parted = !isJoint(ordered[split - 1], ordered[split])
  const left = parted ? ordered.slice(0, split) : ordered
  const right = parted ? ordered.slice(split) : []
  const start = parted ? low + share : low + share + ((spare - share) * (ordered.length + 1 - joints)) / 2
  const fromLeft = packed(left, share).map((offset) => start + offset)
  const fromRight = packed(right.toReversed(), share).map((offset) => high - share - offset)
  return [...fromLeft, ...fromRight.toReversed()]
}

/** Distance of each trace's centre from the outer edge of the first. */
function packed(users: readonly LaneUser[], share: Metres): Metres[] {
  let edge = 0
  return users.map((user, index) => {
    const before = users[index - 1]
    if (before !== undefined) edge += gapBetween(before, user) + (isJoint(before, user) ? 0 : share)
    const centre = edge + user.width / 2
    edge += user.width
    return centre
  })
}

function isJoint(one: LaneUser | undefined, other: LaneUser | undefined): boolean {
  return one !== undefined && other !== undefined && coupled(one, other)
}

function lanePath(ground: Ground, lane: Lane, user: LaneUser, start: Point, track: Metres): Point[] {
  const { side } = lane
  const outward = side.outward(start)
  const rise = jogRise(ground, lane, user.stand, user.ball, track, user.width) ?? 0
  return [start, side.pointAt(track, outward + rise), side.pointAt(track, neckEnd(ground, side))]
}
