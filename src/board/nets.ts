import type { Assumption } from '../units/assumption.ts'
import type { BitsPerSecond, Metres, Ohms, Ratio, Seconds } from '../units/quantity.ts'

export interface NetClass {
  readonly name: string
  readonly interface: string | null
  readonly structure: 'single' | 'pair'
  /** Line impedance for a single trace, differential for a pair. */
  readonly target: Ohms
  /** Plus or minus, as a fraction. */
  readonly tolerance: Ratio
  readonly edge: Edge
  readonly dataRate: DataRate | null
  readonly neck: NeckGeometry
  readonly main: MainRoute
  /** Differential where the class is a pair. */
  readonly sourceImpedance: Ohms
  readonly loadImpedance: Ohms
  /** Longest neck that the interface's published guide allows, with its source. */
  readonly neckAllowance: { readonly length: Metres; readonly source: string } | null
  /** Largest |reflection| of the neck; null takes the board's. */
  readonly reflectionLimit: Ratio | null
  readonly pairSkewLimit: Seconds | null
  readonly groupSkewLimit: Seconds | null
  readonly assumed: readonly Assumption[]
}

/** Rise time as used everywhere inside: 10–90 %. */
export interface Edge {
  readonly riseTime: Seconds
  readonly shape: 'gaussian' | 'linear'
  /** As stated, for print, e.g. `60 ps, 20–80 %, Gaussian`. */
  readonly basis: string
}

export interface DataRate {
  readonly bitRate: BitsPerSecond
  readonly levels: number
  /** Half the symbol rate. */
  readonly nyquist: number
}

/** The narrow stretch. Null width: the widest that the channel takes, not above the main route's. */
export interface NeckGeometry {
  readonly width: Metres | null
  /** Edge to edge inside a pair; null for single traces, or: the trace gap of the fabricator. */
  readonly gap: Metres | null
}

/** The route outside the breakout. */
export interface MainRoute {
  /** Finished foot width; null: solved for the class target on each layer. */
  readonly width: Metres | null
  readonly gap: Metres | null
  /** Null until given; skew is then 'to be compensated'. */
  readonly length: Metres | null
  /** Ground beside the trace at this gap; null for none. */
  readonly coplanarGap: Metres | null
}

export interface Net {
  readonly name: string
  readonly class: string
  /** Ends inside described packages. */
  readonly pins: readonly NetPin[]
  readonly partner: string | null
  /** How the partner was found: stated, or by which name pattern. */
  readonly partnerBasis: string | null
  readonly polarity: 'positive' | 'negative' | null
  readonly matchGroup: string | null
  /** Delay inside the package, from die to ball. */
  readonly packageDelay: Seconds | null
  /** Length of the main route; null until given. */
  readonly mainLength: Metres | null
  /** Exit layer asked for by number; null lets the plan choose. */
  readonly exitLayer: number | null
  readonly assumed: readonly Assumption[]
}

export interface NetPin {
  readonly package: string
  readonly ball: string
}
