import type { Board } from '../board/board.ts'
import type { NetClass } from '../board/nets.ts'
import type { Metres } from '../units/quantity.ts'
import { ifSolvable } from '../numerics/ifSolvable.ts'
import { type SolvedWidth, solveWidth } from './solveWidth.ts'

/**
 * The main route of a class on a layer, solved for its target; null where no width that can be etched reaches it, or the
 * stackup carries no line there. Each question is answered once for a board.
 */
export function solvedMain(board: Board, netClass: NetClass, layer: number): SolvedWidth | null {
  const known = answers.get(board) ?? new Map<string, SolvedWidth | null>()
  answers.set(board, known)
  const { gap: pairGap, coplanarGap } = netClass.main
  const gap = netClass.structure === 'pair' ? pairGap : null
  const key = JSON.stringify([layer, netClass.target, gap, coplanarGap])
  const answer = known.get(key)
  if (answer !== undefined) return answer
  const request = { layer, width: 0, gap, coplanarGap, broadsideLayer: null }
  const solved = ifSolvable(() =>
    solveWidth(board.stackup, request, netClass.target, board.analysis.frequency),
  )
  known.set(key, solved)
  return solved
}

const answers = new WeakMap<Board, Map<string, SolvedWidth | null>>()

/** Width of the main route of a class on a layer: the stated one, or else the solved one. */
export function mainWidth(board: Board, netClass: NetClass, layer: number): Metres | null {
  return netClass.main.width ?? solvedMain(board, netClass, layer)?.width ?? null
}
