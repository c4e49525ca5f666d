/** What a finding may try to compute its remedy: the same stages, with one input changed. */
import type { Board } from './board/board.ts'
import type { Stackup } from './board/stackup.ts'
import { thicknessNear } from './dielectric/chooseThickness.ts'
import { escapePackage } from './escape/escapePackage.ts'
import type { Rerun } from './findings/context.ts'
import { amongVias } from './impedance/amongVias.ts'
import { chosenValue, valueNear } from './impedance/estimateLine.ts'
import type { RunningValue } from './impedance/lineTable.ts'
import { widthNear } from './impedance/solveWidth.ts'
import type { LineRequest } from './section/crossSection.ts'
import type { ViaTable } from './impedance/viaLine.ts'
import { deriveSection } from './section/deriveSection.ts'
import { nearEndAfter } from './signal/nearEndAfter.ts'
import { neckBeforeDevice, neckBetweenMain } from './signal/neckReflection.ts'

export function rerunOn(board: Board, vias: ViaTable): Rerun {
  const { frequency } = board.analysis
  const valueOn = (stackup: Stackup, request: LineRequest): RunningValue =>
    chosenValue(deriveSection(stackup, request), frequency)
  return {
    line: (request) => valueOn(board.stackup, request),
    lineOn: valueOn,
    lineNear: (present) => {
      const near = valueNear(deriveSection(board.stackup, present), frequency)
      return (request) => near(deriveSection(board.stackup, request))
    },
    widthFor: (request, target) => widthNear(board.stackup, request, target, frequency),
    thicknessFor: (request, target) => thicknessNear(board, { request, target, netClass: null }),
    amongVias,
    via: (route, exitLayer) => vias.of(route, exitLayer),
    viaDrilledBack: (route, residualStub) => vias.drilledBack(route, residualStub),
    neckBetweenMain,
    neckBeforeDevice,
    nearEnd: (coupling, change) => nearEndAfter(board, coupling, change),
    escape: (changed, packageName) => {
      const pack = changed.packages.find(({ name }) => name === packageName)
      if (pack === undefined) throw new RangeError(`the board has no package named ${packageName}`)
      return escapePackage(changed, pack)
    },
  }
}
