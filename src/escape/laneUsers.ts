import type { Metres } from '../units/quantity.ts'
import type { Lane } from './lane.ts'
import type { Stand } from './side.ts'

/** A trace in a lane. */
export interface LaneUser {
  readonly ball: number
  readonly stand: Stand
  readonly width: Metres
  /** To a neighbouring trace of another net. */
  readonly traceGap: Metres
  /** The other trace of a coupled pair, and the gap between the two; null for a trace by itself. */
  readonly mate: { readonly ball: number; readonly gap: Metres } | null
}

/**
 * Traces in the order in which they lie across the lane: from the left line outer balls before inner ones,
 * from the right line the other way round. In any other order two of them would cross.
 */
export function inOrder(lane: Lane, users: readonly LaneUser[]): LaneUser[] {
  const place = ({ stand }: LaneUser): number =>
    stand.line === lane.leftLine ? stand.depth : 2 * lane.side.depths - stand.depth
  return users.toSorted((a, b) => place(a) - place(b))
}

/** Gap between two neighbouring traces: of the pair, or the larger that either needs. */
export function gapBetween(one: LaneUser, other: LaneUser): Metres {
  return coupled(one, other) ? (one.mate?.gap ?? 0) : Math.max(one.traceGap, other.traceGap)
}

export function coupled(one: LaneUser, other: LaneUser): boolean {
  return one.mate?.ball === other.ball
}

/** Traces and the gaps between them, packed as tightly as they may be. */
export function lengthNeeded(ordered: readonly LaneUser[]): Metres {
  return ordered.reduce((sum, user, index) => {
    const before = ordered[index - 1]
    return sum + user.width + (before === undefined ? 0 : gapBetween(before, user))
  }, 0)
}

/**
 * True when the traces fit side by side in what is clear for the deepest of them. The same space is
 * charged to all, over the whole way out, so that every trace can run straight.
 */
export function fitTogether(lane: Lane, users: readonly LaneUser[], tolerance: Metres): boolean {
  if (users.length === 0) return true
  const ordered = inOrder(lane, users)
  // A trace between the two of a pair would part them.
  if (!ordered.every((user, index) => user.mate === null || besideMate(ordered, user, index))) return false
  const { low, high } = lane.bounds(deepest(users))
  return lengthNeeded(ordered) <= high - low + tolerance
}

export function deepest(users: readonly LaneUser[]): number {
  return users.reduce((most, { stand }) => Math.max(most, stand.depth), 0)
}

function besideMate(ordered: readonly LaneUser[], user: LaneUser, index: number): boolean {
  return [ordered[index - 1], ordered[index + 1]].some((next) => next !== undefined && coupled(user, next))
}
