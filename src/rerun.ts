/** What a finding may try to compute its remedy: the same stages, with one input changed. */
import type { Board } from './board/board.ts'
import type { Stackup } from './board/stackup.ts'
import { thicknessFor } from './dielectric/chooseThickness.ts'
import { withThickness } from './dielectric/withThickness.ts'
import { escapePackage } from './escape/escapePackage.ts'
import type { Rerun } from './findings/context.ts'
import { chosenValue } from './impedance/estimateLine.ts'
import type { RunningValue } from './impedance/lineTable.ts'
import { widthFor } from './impedance/solveWidth.ts'
import { neckAmongVias } from './impedance/tabulateLines.ts'
import type { LineRequest } from './section/crossSection.ts'
import { deriveSection } from './section/deriveSection.ts'
import { neckBeforeDevice, neckBetweenMain } from './signal/neckReflection.ts'

export function rerunOn(board: Board): Rerun {
  const { frequency } = board.analysis
  const valueOn = (stackup: Stackup, request: LineRequest): RunningValue =>
    chosenValue(deriveSection(stackup, request), frequency)
  return {
    line: (request) => valueOn(board.stackup, request),
    lineOn: valueOn,
    widthFor: (request, target) => {
      const width = widthFor(board.stackup, request, target, frequency)
      return width === null ? null : { width, line: valueOn(board.stackup, { ...request, width }) }
    },
    thicknessFor: (request, target) => {
      const found = thicknessFor(board, { request, target, netClass: null })
      if (found === null) return null
      const stackup = withThickness(board.stackup, found.dielectric, found.thickness)
      return { ...found, line: valueOn(stackup, request) }
    },
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
