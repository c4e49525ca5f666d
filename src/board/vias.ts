import type { Assumption } from '../units/assumption.ts'
import type { Metres } from '../units/quantity.ts'

/** A kind of plated hole. Layers are copper layer numbers, 1 at the top. */
export interface ViaType {
  readonly name: string
  readonly kind: 'through' | 'blind' | 'buried' | 'microvia'
  readonly firstLayer: number
  readonly lastLayer: number
  /** Governs drill to copper, hole wall to hole wall and aspect ratio. */
  readonly drilledDiameter: Metres
  readonly finishedDiameter: Metres
  /** Which of the two the description gave; the other follows from the plating. */
  readonly stated: 'drilled' | 'finished' | 'both'
  /** Pad diameter on each layer from `firstLayer` to `lastLayer`. */
  readonly padDiameters: readonly Metres[]
  readonly unconnectedInnerPads: 'kept' | 'removed'
  readonly antipadDiameter: Metres
  readonly backdrill: Backdrill | null
  readonly inPad: boolean
  readonly filled: boolean
  readonly capped: boolean
  /**
   * For microvias: how one stands on the next. A microvia over several dielectrics with an arrangement
   * is that many holes of one dielectric each. Null for other vias, and for one laser hole through two
   * dielectrics.
   */
  readonly arrangement: 'stacked' | 'staggered' | null
  readonly assumed: readonly Assumption[]
}

export interface Backdrill {
  readonly diameter: Metres
  readonly from: 'top' | 'bottom'
  /** Barrel left beyond the exit layer after drilling back. */
  readonly residualStub: Metres
}
