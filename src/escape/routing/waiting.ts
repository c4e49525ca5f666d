import type { ExitSide } from '../../board/escapeWishes.ts'
import type { NetClass } from '../../board/nets.ts'
import type { Neck } from '../neck.ts'

/** A signal ball that is to leave. */
export interface Candidate {
  readonly ball: number
  readonly name: string
  readonly net: string
  readonly ring: number
  readonly netClass: NetClass
  /** Layer asked for by number; null lets the plan choose. */
  readonly exitLayer: number | null
  /** Side that the net must leave through; null lets the plan choose. */
  readonly side: ExitSide | null
  /** Match group of the net, where another group is to be kept apart from it. */
  readonly group: string | null
  /** Place among the nets planned first; Infinity for all others. */
  readonly rank: number
}

/** One candidate, or the two of a pair, that leave on one layer. */
export interface Unit {
  readonly members: readonly Candidate[]
  /** Ring of the inner member: the unit leaves when that can. */
  readonly ring: number
  /** Layer and side asked for, of all members; null lets the plan choose. */
  readonly asked: number | null
  readonly side: ExitSide | null
  readonly rank: number
}

/** A unit with the necks that its class has on the layer being planned. */
export interface Runner {
  readonly unit: Unit
  readonly neck: Neck
}

/** Units that wait for a layer, and whether the two of a pair may leave one by one. */
export interface Waiting {
  readonly runners: readonly Runner[]
  readonly mayPart: boolean
  /** Balls known to leave: they go before all others of their rank. */
  readonly leaving: ReadonlySet<number>
}
