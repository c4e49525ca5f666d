import type { Board } from '../board/board.ts'
import { valueNear } from '../impedance/estimateLine.ts'
import { ifSolvable } from '../numerics/ifSolvable.ts'
import { rootSumOfSquares, type Range } from '../numerics/rootSumOfSquares.ts'
import type { LineRequest } from '../section/crossSection.ts'
import { deriveSection } from '../section/deriveSection.ts'
import type { Ratio } from '../units/quantity.ts'
import { processInputs, type MadeLine, type ProcessInput } from './processInputs.ts'
import type { Contribution, ProcessSpread } from './processSpread.ts'

/**
 * The spread of a line's impedance by the tolerances of width, copper, dielectrics and mask permittivity that the board
 * states or assumes. Each change is that of the best closed form, taken to the value of the chosen method: the change
 * itself is off by a few percent of itself. The thickness of the mask is not varied.
 *
 * Null where the line does not come out at an end of its ranges: it etches away, or a gap closes.
 * Throws RangeError as `deriveSection` does for the line as described.
 */
export function lineSpread(board: Board, request: LineRequest): ProcessSpread | null {
  const section = deriveSection(board.stackup, request)
  const near = valueNear(section, board.analysis.frequency)
  const nominal = near(section).impedance
  const change = ({ stackup, request: made }: MadeLine): Ratio =>
    near(deriveSection(stackup, made)).impedance / nominal - 1
  const inputs = processInputs(board, request, section)
  const line: MadeLine = { stackup: board.stackup, request }
  return ifSolvable(() => {
    const contributions = inputs.map((input): Contribution => {
      const { quantity, of, nominal: value, tolerance, assumed } = input
      const atLower = change(input.at(line, 1 - tolerance))
      const atUpper = change(input.at(line, 1 + tolerance))
      return { quantity, of, nominal: value, tolerance, assumed, atLower, atUpper }
    })
    const worst = (lowers: boolean): Ratio => change(allAtOnce(line, inputs, contributions, lowers))
    return {
      contributions,
      byQuantity: byQuantity(contributions),
      likely: rootSumOfSquares(contributions),
      worst: { lowest: worst(true), highest: worst(false) },
    }
  })
}

function byQuantity(contributions: readonly Contribution[]): ProcessSpread['byQuantity'] {
  const together = (wanted: Contribution['quantity']): Range =>
    rootSumOfSquares(contributions.filter(({ quantity }) => quantity === wanted))
  return {
    'trace width': together('trace width'),
    'dielectric thickness': together('dielectric thickness'),
    'copper thickness': together('copper thickness'),
    permittivity: together('permittivity'),
  }
}

/** Every input at the end that by itself lowers, or raises, the impedance more. */
function allAtOnce(
  line: MadeLine,
  inputs: readonly ProcessInput[],
  contributions: readonly Contribution[],
  lowers: boolean,
): MadeLine {
  return inputs.reduce((made, input, index) => {
    const { atLower = 0, atUpper = 0, tolerance = 0 } = contributions[index] ?? {}
    const upper = atUpper < atLower === lowers
    return input.at(made, upper ? 1 + tolerance : 1 - tolerance)
  }, line)
}
