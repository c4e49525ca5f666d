import type { Board } from '../../board/board.ts'
import type { Package } from '../../board/packages.ts'
import type { ClearanceCheck, ClearanceFault } from '../escape.ts'
import { clearancesOn } from './clearances.ts'
import { compareShapes } from './compareShapes.ts'
import { eachNeighbour } from './neighbours.ts'
import { Drawing } from './planCopper.ts'
import type { PlanCopper } from './planCopper.ts'

/** A check lists this many faults at most: one already condemns the plan. */
const MOST_FAULTS = 200

/**
 * Draws every copper layer of a finished plan and measures it as somebody with a ruler would. It shares no code with the
 * planner and knows nothing of lanes or flows.
 *
 * What is drawn. On the layer of the lands: each land, its mask opening, and the dog-bones. Each net's holes on every
 * layer of their span, of a signal at the first point of its path, of power and ground at the far end of
 * the dog-bone or else where the ball's via has its place; with a pad at the ends of a hole, on the layer where
 * the net is joined, and wherever unconnected pads are kept. Traces on their exit layers. A ball that has neither a
 * route nor a supply via stays inside: it has only its land, and the dog-bone if the plan gives it one.
 *
 * What is asked, edge to edge, between different nets (`Fabrication`, outer or inner figure):
 * - traces and dog-bones to each other: the larger trace gap of the two nets' classes, or the fabricator's; inside a
 *   pair the gap its routes state; traces of groups that are kept apart that gap if it is larger
 * - traces and dog-bones to lands and via pads, to mask openings, and to hole walls as drilled
 * - traces to keep-outs: none, they may lie at the very edge; dog-bones are not held to them
 * - via pads to each other and to lands: they do not touch. No rule of fabrication says how far pads stay from each other,
 *   so more cannot be proven. Lands to lands are the package's doing, not the plan's, and are not compared.
 * Distances that miss by no more than the comparison tolerance count as kept; copper never touches copper or a hole of another net.
 *
 * Arithmetic. Copper is snapped to a grid of picometres (`GRID`), and every comparison on the grid is exact.
 * `compared` counts pairs of straight stretches, discs and rectangles that were measured; those whose boxes, grown
 * by what is asked, lie apart are clear without. Faults come by layer, then by ball, the first `MOST_FAULTS` of them.
 * Not looked at: whether trace, via and dog-bone of one net meet, holes to holes, and antipads.
 *
 * Throws RangeError where the plan names a ball or via that does not exist, or holds a path without a point or a
 * number that is no length.
 */
export function checkPlan(board: Board, pack: Package, plan: PlanCopper): ClearanceCheck {
  const drawing = new Drawing(board, pack, plan)
  const faults: ClearanceFault[] = []
  let compared = 0
  for (const { number: layer } of board.stackup.copper) {
    const shapes = drawing.shapesOn(layer)
    const found = compareShapes(shapes, clearancesOn(board, pack, layer), layer, eachNeighbour)
    compared += found.compared
    faults.push(...found.faults.slice(0, MOST_FAULTS - faults.length))
  }
  return { compared, faults }
}
