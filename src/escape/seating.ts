import type { Metres } from '../units/quantity.ts'
import type { Ground } from './ground.ts'
import { jogRise } from './jog.ts'
import type { Front, Lane } from './lane.ts'
import { fitTogether } from './laneUsers.ts'
import type { LaneUser } from './laneUsers.ts'
import type { Neck } from './neck.ts'
import type { Stand } from './side.ts'

/** How one ball leaves on a layer: straight along its own line, or by a lane beside it. */
export type Seat =
  | { readonly kind: 'straight'; readonly stand: Stand; readonly width: Metres }
  | { readonly kind: 'lane'; readonly lane: Lane; readonly user: LaneUser }

export function widthOf(seat: Seat): Metres {
  return seat.kind === 'lane' ? seat.user.width : seat.width
}

interface Way {
  readonly lane: Lane
  readonly stand: Stand
}

/** A change that can be taken back. */
interface Change {
  readonly ball: number
  readonly before: Seat | undefined
}

/**
 * Who leaves a layer by which way. Balls are seated one after the other, outer rings first; where a lane is full, those
 * in it move to another that takes them, so that a ball seated once is never turned out and a ball
 * is refused only when no rearrangement along the lanes makes room (augmenting paths, as in bipartite
 * matching; H. W. Kuhn, Naval Research Logistics Quarterly 2, 1955).
 */
export class Seating {
  readonly seats = new Map<number, Seat>()
  private readonly users = new Map<Lane, LaneUser[]>()
  /** Narrowest trace for which a search around a lane has failed: it fails for every later, deeper ball as well. */
  private readonly fullFor = new Map<Lane, Metres>()
  private readonly ways = new Map<number, readonly Way[]>()
  private readonly ground: Ground
  private readonly fronts: ReadonlyMap<string, Front>
  private readonly standsOf: (ball: number) => readonly Stand[]
  private changes: Change[] = []

  constructor(ground: Ground, fronts: readonly Front[], standsOf: (ball: number) => readonly Stand[]) {
    this.ground = ground
    this.fronts = new Map(fronts.map((front) => [front.side.name, front]))
    this.standsOf = standsOf
  }

  /** Seats one ball by itself; false, and nothing changed, when it cannot leave. */
  seatOne(ball: number, neck: Neck): boolean {
    const visited = new Set<Lane>()
    this.changes = []
    if (this.place(ball, neck, visited)) return true
    for (const lane of visited) {
      this.fullFor.set(lane, Math.min(neck.width, this.fullFor.get(lane) ?? Infinity))
    }
    return false
  }

  /** Seats both balls of a pair: side by side in one lane where the neck allows, or else each by itself. */
  seatPair(one: number, other: number, neck: Neck): boolean {
    if (this.straight(one, neck.width) === null && this.straight(other, neck.width) === null) {
      if (this.placeCoupled(one, other, neck)) return true
    }
    this.changes = []
    if (this.place(one, neck, new Set()) && this.place(other, neck, new Set())) return true
    this.takeBack(0)
    return false
  }

  lanesBeside(ball: number): Lane[] {
    return this.waysOf(ball).map(({ lane }) => lane)
  }

  usersOf(lane: Lane): readonly LaneUser[] {
    return this.users.get(lane) ?? []
  }

  lanesInUse(): Lane[] {
    return [...this.users.keys()].filter((lane) => this.usersOf(lane).length > 0)
  }

  private place(ball: number, neck: Pick<Neck, 'width' | 'traceGap'>, visited: Set<Lane>): boolean {
    const straight = this.straight(ball, neck.width)
    if (straight !== null) {
      this.put(ball, straight)
      return true
    }
    const ways = this.waysOf(ball).filter(({ lane }) => neck.width < (this.fullFor.get(lane) ?? Infinity))
    if (ways.length === 0) return false
    const emptiestFirst = ways.toSorted((a, b) => this.usersOf(a.lane).length - this.usersOf(b.lane).length)
    for (const way of emptiestFirst) {
      const user = this.userOf(ball, way, neck)
      if (user !== null && this.fits(way.lane, [...this.usersOf(way.lane), user])) {
        this.put(ball, { kind: 'lane', lane: way.lane, user })
        return true
      }
    }
    return ways.some((way) => this.makeRoom(ball, way, neck, visited))
  }

  /** Moves one trace out of the lane and takes its room. */
  private makeRoom(
    ball: number,
    way: Way,
    neck: Pick<Neck, 'width' | 'traceGap'>,
    visited: Set<Lane>,
  ): boolean {
    if (visited.has(way.lane)) return false
    const user = this.userOf(ball, way, neck)
    if (user === null) return false
    visited.add(way.lane)
    for (const other of [...this.usersOf(way.lane)]) {
      if (other.mate !== null) continue
      const rest = this.usersOf(way.lane).filter((each) => each !== other)
      if (!this.fits(way.lane, [...rest, user])) continue
      const mark = this.changes.length
      this.put(other.ball, undefined)
      this.put(ball, { kind: 'lane', lane: way.lane, user })
      if (this.place(other.ball, other, visited)) return true
      this.takeBack(mark)
    }
    return false
  }

  private placeCoupled(one: number, other: number, neck: Neck): boolean {
    if (neck.coupled === null) return false
    const { width, gap } = neck.coupled
    const pairNeck = { width, traceGap: neck.traceGap }
    for (const way of this.waysOf(one)) {
      const facing = this.waysOf(other).find(({ lane }) => lane === way.lane)
      if (facing === undefined) continue
      const first = this.userOf(one, way, pairNeck, { ball: other, gap })
      const second = this.userOf(other, facing, pairNeck, { ball: one, gap })
      if (first === null || second === null) continue
      if (!this.fits(way.lane, [...this.usersOf(way.lane), first, second])) continue
      this.put(one, { kind: 'lane', lane: way.lane, user: first })
      this.put(other, { kind: 'lane', lane: way.lane, user: second })
      return true
    }
    return false
  }

  private straight(ball: number, width: Metres): Seat | null {
    const site = this.ground.sites[ball]
    if (site === undefined) return null
    for (const stand of this.standsOf(ball)) {
      const front = this.fronts.get(stand.side.name)
      if (front?.straightAhead(stand, stand.side.along(site), width) === true) {
        return { kind: 'straight', stand, width }
      }
    }
    return null
  }

  private waysOf(ball: number): readonly Way[] {
    const known = this.ways.get(ball)
    if (known !== undefined) return known
    const ways: Way[] = []
    for (const stand of this.standsOf(ball)) {
      const beside = this.fronts.get(stand.side.name)?.besides(stand.line)
      if (beside?.left) ways.push({ lane: beside.left, stand })
      if (beside?.right) ways.push({ lane: beside.right, stand })
    }
    this.ways.set(ball, ways)
    return ways
  }

  /** Null where the turn from the ball into the lane clears the places around at neither edge of it. */
  private userOf(
    ball: number,
    way: Way,
    neck: Pick<Neck, 'width' | 'traceGap'>,
    mate: LaneUser['mate'] = null,
  ): LaneUser | null {
    const { width, traceGap } = neck
    const { low, high } = way.lane.bounds(way.stand.depth)
    const tracks = [low + width / 2, high - width / 2]
    const turns = tracks.every(
      (track) => jogRise(this.ground, way.lane, way.stand, ball, track, width) !== null,
    )
    return turns ? { ball, stand: way.stand, width, traceGap, mate } : null
  }

  private fits(lane: Lane, users: readonly LaneUser[]): boolean {
    return fitTogether(lane, users, this.ground.tolerance)
  }

  private put(ball: number, seat: Seat | undefined): void {
    const before = this.seats.get(ball)
    this.changes.push({ ball, before })
    this.set(ball, before, seat)
  }

  private takeBack(mark: number): void {
    while (this.changes.length > mark) {
      const change = this.changes.pop()
      if (change !== undefined) this.set(change.ball, this.seats.get(change.ball), change.before)
    }
  }

  private set(ball: number, before: Seat | undefined, seat: Seat | undefined): void {
    if (before?.kind === 'lane') {
      this.users.set(
        before.lane,
        this.usersOf(before.lane).filter((user) => user.ball !== ball),
      )
    }
    if (seat === undefined) {
      this.seats.delete(ball)
      return
    }
    this.seats.set(ball, seat)
    if (seat.kind === 'lane') this.users.set(seat.lane, [...this.usersOf(seat.lane), seat.user])
  }
}
