import type { Board } from '../../board/board.ts'
import type { Package } from '../../board/packages.ts'
import type { ClearanceFault, MainStart } from '../escape.ts'
import { clearancesOn } from './clearances.ts'
import { compareShapes } from './compareShapes.ts'
import { eachNeighbour } from './neighbours.ts'
import { Drawing } from './planCopper.ts'
import type { PlanCopper } from './planCopper.ts'
import type { Shape } from './shape.ts'

/**
 * Measures the beginnings of main routes as `checkPlan` measures a plan, by the same rules: against all copper of the plan
 * and its keep-outs, or against each other. Necks that run on to make room count as their main routes. The two of a pair
 * keep the gap of their necks, or the gap between their main routes where that is less.
 *
 * Faults come by layer, then by ball, all of them; `ball` is the one whose main route it is.
 *
 * Throws RangeError as `checkPlan` does.
 */
export function checkMains(
  board: Board,
  pack: Package,
  plan: PlanCopper,
  mains: readonly MainStart[],
  against: 'plan' | 'each other',
): ClearanceFault[] {
  const drawing = new Drawing(board, pack, { ...plan, mains })
  const layers = [...new Set(mains.map(({ layer }) => layer))].toSorted((a, b) => a - b)
  const withPlan = against === 'plan'
  const asked = (one: Shape, other: Shape): boolean => !withPlan || isMain(one) !== isMain(other)
  return layers.flatMap((layer) => {
    const clearances = clearancesOn(board, pack, layer)
    const shapes = withPlan ? drawing.shapesOn(layer) : drawing.tracesOn(layer).filter(isMain)
    return compareShapes(shapes, clearances, layer, eachNeighbour, asked).faults
  })
}

function isMain({ kind }: Shape): boolean {
  return kind === 'main route'
}
