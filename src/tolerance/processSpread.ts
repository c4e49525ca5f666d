import type { Range } from '../numerics/rootSumOfSquares.ts'
import type { Metres, Ratio } from '../units/quantity.ts'

/** What process and material may do to the impedance of a line, input by input and together: over nominal, less 1. */
export interface ProcessSpread {
  readonly contributions: readonly Contribution[]
  /** Contributions of one quantity together, as root sum of squares. */
  readonly byQuantity: Readonly<Record<Contribution['quantity'], Range>>
  /** Root sum of squares of the contributions on either side, for inputs that err apart from each other. */
  readonly likely: Range
  /** Every input at the end that lowers the impedance, and every one at the end that raises it, at once. */
  readonly worst: Range
}

/** One input with its range, and what it does by itself. */
export interface Contribution {
  readonly quantity: 'trace width' | 'dielectric thickness' | 'copper thickness' | 'permittivity'
  /** Layer of copper or dielectric that it is of. */
  readonly of: string
  /** Metres, or a plain number for a permittivity. */
  readonly nominal: Metres | Ratio
  /** Half-width of its range, as a fraction. */
  readonly tolerance: Ratio
  /** True where the description left the tolerance out. */
  readonly assumed: boolean
  /** Impedance over nominal, less 1, with this input alone at its lower and at its upper end. */
  readonly atLower: Ratio
  readonly atUpper: Ratio
}
