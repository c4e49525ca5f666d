/** The thickness question by itself: for one stated trace, or for the necks and mains of one net class. */
import type { Board } from './board/board.ts'
import { chooseThickness } from './dielectric/chooseThickness.ts'
import { lineThicknesses } from './dielectric/lineThicknesses.ts'
import type { ThicknessChoice } from './dielectric/thicknessChoice.ts'
import { escapesOf, routesOf } from './escapes.ts'
import { tabulateLines } from './impedance/tabulateLines.ts'
import type { LineRequest } from './section/crossSection.ts'
import type { Ohms, Ratio } from './units/quantity.ts'

/** Throws RangeError, with a message fit for a user, for what the stackup cannot carry. */
export function traceThickness(
  board: Board,
  request: LineRequest,
  target: Ohms,
  tolerance: Ratio,
): ThicknessChoice {
  return chooseThickness(board, { request, target, tolerance, stretch: 'neck', netClass: null })
}

/** As in the review of the whole board: on every layer where a planned route of the class uses a fixed width. */
export function classThicknesses(board: Board, className: string): ThicknessChoice[] {
  const classes = board.classes.filter(({ name }) => name === className)
  if (classes.length === 0) throw new RangeError(`the board has no net class named ${className}`)
  const nets = new Set(board.nets.filter((net) => net.class === className).map(({ name }) => name))
  const routes = routesOf(escapesOf(board)).filter(({ net }) => nets.has(net))
  const only = { ...board, classes }
  return distinct(lineThicknesses(only, tabulateLines(only, routes)))
}

/** Two packages that squeeze a class to the same width on a layer ask the same question. */
function distinct(choices: readonly ThicknessChoice[]): ThicknessChoice[] {
  const keyed = choices.map((choice) => {
    const { layer, stretch, width, gap } = choice
    return [[layer, stretch, width.toPrecision(9), gap?.toPrecision(9)].join('|'), choice] as const
  })
  return [...new Map(keyed.toReversed()).values()].toReversed()
}
