import type { Farads, Hertz, Metres, Ohms, Ratio, Seconds } from '../units/quantity.ts'
import type { Assumption } from '../units/assumption.ts'

/** One net as its sections in series, and what they do to its edge. */
export interface NetSignal {
  readonly net: string
  readonly class: string
  readonly structure: 'single' | 'pair'
  /** In order from the first end to the second (or to the main route where only one end is described). */
  readonly sections: readonly NetSection[]
  readonly steps: readonly Step[]
  readonly ends: readonly EndSignal[]
  readonly perLayer: readonly LayerLength[]
  /** Barrels included, like the delay; package delays are not. */
  readonly totalLength: Metres
  readonly totalDelay: Seconds
  /** True when the main route's length is unknown: totals then cover the breakouts alone. */
  readonly breakoutOnly: boolean
  readonly assumed: readonly Assumption[]
}

export interface NetSection {
  readonly kind: 'dog-bone' | 'via' | 'neck' | 'main'
  /** Package whose breakout it belongs to; null for the main route. */
  readonly package: string | null
  /** Copper layer; for a via the layer it ends on. */
  readonly layer: number
  readonly width: Metres | null
  readonly gap: Metres | null
  /** Along the board, or depth for a via. */
  readonly length: Metres | null
  /** Differential for pairs. Null for a via that cannot be solved. */
  readonly impedance: Ohms | null
  readonly band: Ratio | null
  readonly method: string
  readonly delay: Seconds | null
  /** What hangs in parallel at the end of a via towards its neck; null elsewhere, and where it cannot be solved. */
  readonly hanging: HangingBarrel | null
}

/** Pad on the exit layer and barrel beyond: an open line. */
export interface HangingBarrel {
  /** Differential for pairs. */
  readonly impedance: Ohms
  readonly delay: Seconds
  /** Of one barrel to the planes. */
  readonly capacitance: Farads
  /** By how much its charging delays an edge on the neck: half the line's impedance times the capacitance. */
  readonly loadingDelay: Seconds
}

export interface Step {
  readonly from: string
  readonly to: string
  readonly layer: number
  readonly impedanceFrom: Ohms
  readonly impedanceTo: Ohms
  /** (to − from)/(to + from). */
  readonly reflection: Ratio
}

/** The neck at one end. */
export interface EndSignal {
  readonly package: string
  readonly ball: string
  readonly layer: number
  readonly width: Metres
  readonly gap: Metres | null
  readonly neckImpedance: Ohms
  readonly mainImpedance: Ohms
  readonly neckLength: Metres
  readonly neckDelay: Seconds
  readonly riseTime: Seconds
  /** Length that the edge occupies on this layer: rise time over delay per metre. */
  readonly edgeLength: Metres
  readonly electricalLength: {
    readonly share: Ratio
    readonly limit: Ratio
    readonly limitSource: string
    readonly long: boolean
  }
  readonly reflection: {
    /** Signed peak for main route on both sides: short-section theory, and exact cascade. */
    readonly mainBothSides: PeakReflection
    /** Change of the reflection that the neck makes in front of the real source or load. */
    readonly device: PeakReflection & { readonly deviceImpedance: Ohms }
    readonly limit: Ratio
    readonly limitSource: string
    /** |S11| of the narrow stretch between main routes at Nyquist; null without a data rate. */
    readonly atNyquist: { readonly frequency: Hertz; readonly magnitude: Ratio } | null
    /** The larger peak, signed, if the net's own via were not there; null where it is not in the others. */
    readonly withoutVia: Ratio | null
  }
  readonly allowance: { readonly length: Metres; readonly source: string; readonly exceeded: boolean } | null
  readonly stub: StubSignal | null
}

export interface PeakReflection {
  readonly shortSection: Ratio
  readonly exact: Ratio
}

export interface StubSignal {
  readonly length: Metres
  /** Quarter-wave frequency with the dielectric around the barrel, raised by `loading` for pads and planes. */
  readonly nullFrequency: Hertz
  readonly loading: Ratio
  readonly nyquist: Hertz | null
  readonly lengthLimit: Metres | null
  readonly limitSource: string
}

export interface LayerLength {
  readonly layer: number
  readonly length: Metres
  readonly delay: Seconds
}

/** Skew inside a pair or a match group. */
export interface Skew {
  readonly kind: 'pair' | 'group'
  readonly name: string
  readonly nets: readonly string[]
  readonly earliest: { readonly net: string; readonly delay: Seconds }
  readonly latest: { readonly net: string; readonly delay: Seconds }
  readonly skew: Seconds
  readonly limit: Seconds | null
  /** Main lengths are not given: the skew is what the main routes must take up. */
  readonly toBeCompensated: boolean
}
