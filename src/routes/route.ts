import type { ExitSide } from '../board/escapeWishes.ts'
import type { Metres, Point } from '../units/quantity.ts'

/**
 * How one ball's net leaves its package: the seam between planning (or reading a routed board)
 * and everything electrical. Later stages know nothing of channels or flows.
 */
export interface Route {
  readonly net: string
  readonly package: string
  readonly ball: string
  /** Copper layer number on which the net leaves. */
  readonly exitLayer: number
  /** Via type that takes the net there; null when it leaves on the layer of its land. */
  readonly via: string | null
  /** Centre line on the exit layer from ball (or via) centre to half a pitch outside the last row, package frame. */
  readonly path: readonly Point[]
  /** Length of the neck along the centre line, from ball centre, dog-bone included. */
  readonly neckLength: Metres
  /** Share of `neckLength` that lies on the land's own layer: the dog-bone; 0 with via in pad or without a via. */
  readonly dogBoneLength: Metres
  /** Finished foot width of the neck, and gap inside a pair that stays coupled; null for single traces. */
  readonly width: Metres
  readonly gap: Metres | null
  /** Barrel that the signal runs through, and barrel that hangs beyond the exit layer. */
  readonly viaDepth: Metres
  readonly stubLength: Metres
  /** Length over which the two of a pair do not run side by side; null for single traces. */
  readonly uncoupledLength: Metres | null
  /** Side of the package through which the net leaves. */
  readonly leaves: ExitSide
  /** Ring of the ball, 1 at the edge of the grid. */
  readonly ring: number
  readonly origin: 'planned' | 'as routed'
}
