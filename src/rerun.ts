/** What a finding may try to compute its remedy: the same stages, with one input changed. */
import type { Board } from './board/board.ts'
import { chooseThickness } from './dielectric/chooseThickness.ts'
import { withThickness } from './dielectric/withThickness.ts'
import { escapePackage } from './escape/escapePackage.ts'
import type { Rerun } from './findings/context.ts'
import { evaluateLine } from './line.ts'
import { solveWidth } from './impedance/solveWidth.ts'
import { neckBeforeDevice, neckBetweenMain } from './signal/neckReflection.ts'

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
    lineOn: (stackup, request) => evaluateLine({ ...board, stackup }, request),
    neckBetweenMain,
    neckBeforeDevice,
    escape: (changed, packageName) => {
      const pack = changed.packages.find(({ name }) => name === packageName)
      if (pack === undefined) throw new RangeError(`the board has no package named ${packageName}`)
      return escapePackage(changed, pack)
    },
  }
}
