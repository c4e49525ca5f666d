/** What a finding may try to compute its remedy: the same stages, with one input changed. */
import type { Board } from './board/board.ts'
import { chooseThickness } from './dielectric/chooseThickness.ts'
import { withThickness } from './dielectric/withThickness.ts'
import type { Rerun } from './findings/context.ts'
import { evaluateLine } from './line.ts'
import { solveWidth } from './impedance/solveWidth.ts'

export function rerunOn(board: Board): Rerun {
  return {
    line: (request) => evaluateLine(board, request),
    widthFor: (request, target) => solveWidth(board.stackup, request, target, board.analysis.frequency),
    thicknessFor: (request, target) => {
      const choice = chooseThickness(board, {
        request,
        target,
        tolerance: 0,
        stretch: 'neck',
        netClass: null,
      })
      if (choice.thickness === null) return null
      const stackup = withThickness(board.stackup, choice.dielectric, choice.thickness)
      return {
        dielectric: choice.dielectric,
        thickness: choice.thickness,
        impedance: evaluateLine({ ...board, stackup }, request),
      }
    },
  }
}
