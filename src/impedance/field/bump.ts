import type { Metres } from '../../units/quantity.ts'

/** A conductor of the right half of a picture: a trapezoid with level faces. */
export interface Bump {
  readonly lowLeft: Metres
  readonly lowRight: Metres
  readonly highLeft: Metres
  readonly highRight: Metres
  /** Of the lower face. */
  readonly y: Metres
  readonly thickness: Metres
  readonly conductor: number
  /** Straddles the axis of symmetry. */
  readonly onAxis: boolean
  /** Runs out of the picture on the right. */
  readonly endless: boolean
}
