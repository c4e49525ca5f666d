import type { Metres } from '../units/quantity.ts'

/**
 * What stands beside a trace, or a pair, that runs along the middle of a channel between two straight rows of vias,
 * as a cross-section does not show it. Below and above are those of the cross-section, whose orientation is normalised.
 * SI throughout; diameters are of round shapes, each about the via's centre.
 */
export interface Surroundings {
  /** From via to via along the trace. */
  readonly viaPitch: Metres
  /** From the middle of the channel to the via centres on either side: half the pitch across the trace. */
  readonly halfChannel: Metres
  /** Diameter of the barrel: of the drill. Null where there are pads alone: lands without a via, or holes drilled back. */
  readonly barrel: Metres | null
  /** Diameter of the pads on the trace's own layer; null where pads without a connection are removed. */
  readonly pad: Metres | null
  /**
   * Barrels and pads are at zero volts: ground vias, or signals held by their drivers. False leaves them out, as vias
   * that follow the trace; their antipads stay.
   */
  readonly grounded: boolean
  readonly planeBelow: PerforatedPlane
  /** Null where the cross-section has one plane. */
  readonly planeAbove: PerforatedPlane | null
}

/** A reference plane with a round antipad about every via. */
export interface PerforatedPlane {
  /** Null where the vias connect to the plane: no opening. */
  readonly antipad: Metres | null
  readonly thickness: Metres
  /** Dielectric between this plane and the next one behind it, seen from the trace; null where there is none. */
  readonly behind: Metres | null
}
