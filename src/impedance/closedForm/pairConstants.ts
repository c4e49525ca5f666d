import type { LineConstants } from './lineConstants.ts'

/** What a closed form says of a symmetric pair; the impedances are of one trace to ground. */
export interface PairConstants {
  /** Both traces driven alike. */
  readonly even: LineConstants
  /** Traces driven oppositely: what a differential signal travels in, at twice this impedance. */
  readonly odd: LineConstants
}
