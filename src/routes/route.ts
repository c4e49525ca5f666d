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
  /**
   * Centre line on the exit layer from ball (or via) centre to half a pitch outside the last row, package frame; farther
   * where it takes more to make room for its main route.
   */
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
  /** The neck on its exit layer, from via or land outwards; together `neckLength` less the dog-bone. */
  readonly stretches: readonly NeckStretch[]
  /** Side of the package through which the net leaves. */
  readonly leaves: ExitSide
  /** Ring of the ball, 1 at the edge of the grid. */
  readonly ring: number
}

/** A part of a neck on its exit layer: the traces of a pair by themselves, or side by side; of single traces all of it. */
export interface NeckStretch {
  readonly coupled: boolean
  readonly length: Metres
  readonly beside: readonly BesideNeck[]
}

/** Equal vias, or lands without one, of other nets at one distance beside a stretch. */
export interface BesideNeck {
  readonly count: number
  /**
   * Length of the stretch that they stand beside: each for a pitch about its middle, as far as that lies along the
   * stretch.
   */
  readonly covers: Metres
  /** From the centre line to their middles, of a coupled pair from the line between its traces; to the micrometre. */
  readonly distance: Metres
  /** From one such place to the next along the trace, and across it, in the package's grid. */
  readonly pitch: Metres
  readonly pitchAcross: Metres
  /** Names of the holes, as in `Route.via`; null for a land without a via. */
  readonly via: string | null
  /** Diameter of the copper on the neck's layer; null where a hole passes without a pad. */
  readonly pad: Metres | null
  /** Drilled diameter of the plated hole on the neck's layer; null without one, and where it is drilled back. */
  readonly barrel: Metres | null
  /** Net of a via that feeds power or ground: it joins planes of that net without an opening. Null for signals. */
  readonly supply: string | null
}
