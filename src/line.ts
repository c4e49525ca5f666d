/** One line of a board: stackup, layer and width in, every closed form that applies out. */
import type { Board } from './board/board.ts'
import type { LineImpedance } from './impedance/estimate.ts'
import { estimateLine } from './impedance/estimateLine.ts'
import type { LineRequest } from './section/crossSection.ts'
import { deriveSection } from './section/deriveSection.ts'

/** Throws RangeError, with a message fit for a user, for what the stackup cannot carry. */
export function evaluateLine(board: Board, request: LineRequest): LineImpedance {
  return estimateLine(deriveSection(board.stackup, request), board.analysis.frequency)
}
