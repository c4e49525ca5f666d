/** One line of a board: stackup, layer and width in; field solution, every closed form that applies, and loss out. */
import type { Board } from './board/board.ts'
import type { LineImpedance } from './impedance/estimate.ts'
import { estimateLine } from './impedance/estimateLine.ts'
import { fieldLoss } from './impedance/fieldLoss.ts'
import type { LineRequest } from './section/crossSection.ts'
import { deriveSection } from './section/deriveSection.ts'
import { lineSpread } from './tolerance/lineSpread.ts'
import type { ProcessSpread } from './tolerance/processSpread.ts'

/** Throws RangeError, with a message fit for a user, for what the stackup cannot carry. */
export function evaluateLine(board: Board, request: LineRequest): LineImpedance {
  const section = deriveSection(board.stackup, request)
  const { frequency } = board.analysis
  const line = estimateLine(section, frequency)
  return { ...line, loss: fieldLoss(section, line.chosen.modes, frequency) ?? line.loss }
}

/** What the tolerances of the process do to it; null where it does not come out at an end of them. Throws as `evaluateLine`. */
export function processOfLine(board: Board, request: LineRequest): ProcessSpread | null {
  return lineSpread(board, request)
}
