import type { Metres, Ohms, Ratio } from '../units/quantity.ts'

/** Which dielectric thickness brings a trace of given width on a given layer to its target. */
export interface ThicknessChoice {
  readonly layer: number
  readonly netClass: string | null
  readonly stretch: 'neck' | 'main'
  readonly width: Metres
  readonly gap: Metres | null
  readonly target: Ohms
  /** Name of the dielectric that is varied: the one between trace and nearest plane. */
  readonly dielectric: string
  readonly present: { readonly thickness: Metres; readonly impedance: Ohms }
  /** Null where no thickness in the range reaches the target; `reason` then says why. */
  readonly thickness: Metres | null
  /** Impedance at the chosen thickness, with the band of its formula. */
  readonly reached: { readonly impedance: Ohms; readonly band: Ratio; readonly method: string } | null
  readonly reason: string | null
  /** Range of thickness that keeps the impedance inside target ± tolerance, whether or not one meets it; null where none. */
  readonly window: { readonly min: Metres; readonly max: Metres } | null
  readonly curve: readonly CurvePoint[]
}

export interface CurvePoint {
  readonly thickness: Metres
  readonly impedance: Ohms
  /** Half-width: that of the methods that were asked near it, and what the closed form's scale changes on the way. */
  readonly band: Ratio
}
