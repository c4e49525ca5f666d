import type { Assumption } from '../units/assumption.ts'
import type { Metres, Ratio } from '../units/quantity.ts'

/** What the fabricator can make. Outer layers are the two that carry mask. */
export interface Fabrication {
  readonly className: string
  readonly source: string
  readonly date: string
  readonly traceWidth: OuterInner
  readonly traceGap: OuterInner
  /** Trace edge to the edge of a land or via pad. */
  readonly traceToPad: OuterInner
  /** Edge of a mask opening to a neighbouring trace, so that mask covers the trace. */
  readonly maskOpeningToTrace: Metres
  /** Hole wall, as drilled, to any copper of another net. */
  readonly drillToCopper: Metres
  readonly holeWallToHoleWall: Metres
  readonly annularRing: AnnularRing
  /** Hole depth over drilled diameter. */
  readonly aspectRatio: { readonly drilled: Ratio; readonly microvia: Ratio }
  readonly maxStackedMicrovias: number
  /** Layer-to-layer misregistration, plus or minus. */
  readonly registration: Metres
  /** Plus or minus, as a fraction of the finished width, but never less than `widthToleranceFloor`. */
  readonly widthTolerance: Ratio
  readonly widthToleranceFloor: Metres
  readonly impedanceTolerance: Ratio
  readonly minDielectric: Metres
  readonly maskWeb: Metres
  /** Drawn width less finished foot width: what the fabricator's etch takes unless they compensate. */
  readonly drawnWidthExcess: Metres
  readonly assumed: readonly Assumption[]
}

export interface OuterInner {
  readonly outer: Metres
  readonly inner: Metres
}

export interface AnnularRing {
  /** IPC-6012 performance class. */
  readonly ipcClass: 2 | 3
  /** From the finished hole on outer layers, from the drilled hole on inner ones. */
  readonly external: Metres
  readonly internal: Metres
  readonly source: string
}
