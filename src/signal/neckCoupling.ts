import type { Metres, Ohms, Ratio, Seconds } from '../units/quantity.ts'

/**
 * What the traces beside one neck, or one pair of necks, do to it. All as shares of the neighbour's own swing,
 * differential where it is a pair, because no description says how far a net swings; noise on a pair is differential.
 *
 * Both lines matched. Neighbours are added as if every one switched in the same direction at the worst instant.
 */
export interface NeckCoupling {
  /** The net, or the positive one of a pair, and the other one. */
  readonly net: string
  readonly partner: string | null
  readonly class: string
  readonly structure: 'single' | 'pair'
  readonly package: string
  readonly layer: number
  readonly width: Metres
  /** Inside a pair that is coupled; null otherwise. */
  readonly gap: Metres | null
  /** The one that disturbs most first. */
  readonly neighbours: readonly NeighbourNoise[]
  /** Nets beside it whose row cannot be solved; they are in no sum. */
  readonly unsolved: readonly string[]
  /** Sums over the neighbours; half-width of the error band on the first as a fraction of it. */
  readonly nearEnd: Ratio
  readonly farEnd: Ratio
  readonly band: Ratio
  readonly limit: Ratio
  readonly limitSource: string
}

/** One trace beside a neck, over all stretches where nothing stands between the two. */
export interface NeighbourNoise {
  readonly net: string
  readonly class: string
  readonly width: Metres
  /** Of the neighbour's own edge, 10–90 %. */
  readonly riseTime: Seconds
  readonly stretches: readonly StretchBeside[]
  readonly smallestGap: Metres
  /** Side by side, together. */
  readonly length: Metres
  /** One way along that length. */
  readonly delay: Seconds
  /** Backward coefficient where it is largest. */
  readonly backward: Ratio
  readonly nearEnd: Ratio
  readonly farEnd: Ratio
  /** Impedance of the neck where this neighbour is nearest, while it switches with the net and against it. */
  readonly impedance: { readonly withIt: Ohms; readonly againstIt: Ohms } | null
}

export interface StretchBeside {
  readonly gap: Metres
  readonly length: Metres
  /** True where the two of the disturbed pair run side by side. */
  readonly coupled: boolean
}
