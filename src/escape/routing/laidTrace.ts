import type { ExitSide } from '../../board/escapeWishes.ts'
import type { Metres, Point } from '../../units/quantity.ts'

/** The trace of one ball on its exit layer. */
export interface LaidTrace {
  readonly ball: number
  /** Centre line from the start of the net on this layer to the end of the neck. */
  readonly path: readonly Point[]
  readonly width: Metres
  readonly leaves: ExitSide
  /** The other trace of a pair, and the gap between the two where they run side by side; null by itself. */
  readonly mate: { readonly ball: number; readonly gap: Metres; readonly coupledLength: Metres } | null
}
