import type { Board } from '../board/board.ts'
import type { NetClass } from '../board/nets.ts'
import type { Metres } from '../units/quantity.ts'
import { isOuter } from './chainReach.ts'
import { figureOn } from './clearanceRules.ts'

/** Widths that a class runs with through one channel. */
export interface Neck {
  /** One trace by itself. */
  readonly width: Metres
  /** Both traces of a pair side by side; null where they do not fit, or for single traces. */
  readonly coupled: { readonly width: Metres; readonly gap: Metres } | null
  /** To a neighbouring trace of another net. */
  readonly traceGap: Metres
}

/**
 * The neck of a class in a channel of the given clear space: its stated width, or else the widest that
 * fits, one trace by itself or two with the class gap for a pair. Not above a stated main route, and
 * never below what the fabricator makes: where that does not fit, no trace does, and the plan says so.
 */
export function neckOf(board: Board, netClass: NetClass, layer: number, clear: Metres): Neck {
  const outer = isOuter(board, layer)
  const narrowest = figureOn(outer, board.fabrication.traceWidth)
  const traceGap = netClass.neck.gap ?? figureOn(outer, board.fabrication.traceGap)
  const limited = (widest: Metres): Metres =>
    Math.max(narrowest, Math.min(widest, netClass.main.width ?? Infinity))
  const forTwo = netClass.neck.width ?? limited((clear - traceGap) / 2)
  const fits = 2 * forTwo + traceGap <= clear + board.analysis.comparisonTolerance
  return {
    width: netClass.neck.width ?? limited(clear),
    coupled: netClass.structure === 'pair' && fits ? { width: forTwo, gap: traceGap } : null,
    traceGap,
  }
}
