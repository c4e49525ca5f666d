/** What a finding may try to compute its remedy: the same stages, with one input changed. */
import type { Board } from './board/board.ts'
import { thicknessFor } from './dielectric/chooseThickness.ts'
import { withThickness } from './dielectric/withThickness.ts'
import { escapePackage } from './escape/escapePackage.ts'
import type { Rerun } from './findings/context.ts'
import { evaluateLine } from './line.ts'
import { solveWidth } from './impedance/solveWidth.ts'
import { neckAmongVias } from './impedance/tabulateLines.ts'
import { neckBeforeDevice, neckBetweenMain } from './signal/neckReflection.ts'

export function rerunOn(board: Board): Rerun {
  return {
    line: (request) => evaluateLine(board, request),
    widthFor: (request, target) => solveWidth(board.stackup, request, target, board.analysis.frequency),
    thicknessFor: (request, target) => {
      const found = thicknessFor(board, { request, target, netClass: null })
      if (found === null) return null
      const stackup = withThickness(board.stackup, found.dielectric, found.thickness)
      return { ...found, impedance: evaluateLine({ ...board, stackup }, request) }
    },
    lineOn: (stackup, request) => evaluateLine({ ...board, stackup }, request),
    amongVias: neckAmongVias,
    neckBetweenMain,
    neckBeforeDevice,
    escape: (changed, packageName) => {
      const pack = changed.packages.find(({ name }) => name === packageName)
      if (pack === undefined) throw new RangeError(`the board has no package named ${packageName}`)
      return escapePackage(changed, pack)
    },
  }
}
