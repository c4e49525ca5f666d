import type { Board } from '../board/board.ts'
import type { Metres } from '../units/quantity.ts'

/**
 * Lengths as somebody will draw and print them: a remedy is computed to the last digit of a double, but what
 * is done is the printed figure, so that figure is what has to be tried.
 */

/** Steps of what is printed: 1 um in millimetres; in mils a twentieth, a tenth from 10 mil up. */
const STEP_MM: Metres = 1e-6
const STEP_MIL: Metres = 1.27e-6
const STEP_TEN_MIL: Metres = 2.54e-6
const TEN_MIL: Metres = 254e-6
/** Of a step: a length this near to one is on it. */
const ON_THE_STEP = 1e-6

/** The nearest length on the grid that is no shorter. */
export function drawnUp(board: Board, length: Metres): Metres {
  const step = stepAt(board, length)
  return Math.ceil(length / step - ON_THE_STEP) * step
}

/** The nearest length on the grid that is no longer. */
export function drawnDown(board: Board, length: Metres): Metres {
  const step = stepAt(board, length)
  return Math.floor(length / step + ON_THE_STEP) * step
}

export function drawnNearest(board: Board, length: Metres): Metres {
  const step = stepAt(board, length)
  return Math.round(length / step) * step
}

function stepAt({ displayUnit }: Board, length: Metres): Metres {
  if (displayUnit === 'mm') return STEP_MM
  return Math.abs(length) < TEN_MIL ? STEP_MIL : STEP_TEN_MIL
}

/** Shares of a value below which a difference is rounding of doubles and no fault. */
const ROUNDING = 1e-9

export function isBelow(value: number, limit: number): boolean {
  return value < limit - ROUNDING * Math.abs(limit)
}

export function isAbove(value: number, limit: number): boolean {
  return value > limit + ROUNDING * Math.abs(limit)
}
