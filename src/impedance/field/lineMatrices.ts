import { factor } from '../../numerics/dense.ts'
import { SPEED_OF_LIGHT } from '../../units/constants.ts'
import type { FaradsPerMetre, HenriesPerMetre } from '../../units/quantity.ts'
import { assemble } from './assemble.ts'
import { meshProblem, type Refinement } from './panels.ts'
import { solveFilledAndEmpty } from './solveProblem.ts'
import type { FieldProblem } from './wall.ts'

/** Coupled lines, lossless and quasi-static, in the order of their numbers. */
export interface LineMatrices {
  /** Maxwell's: charge on a row's conductor with a column's at one volt and all others at none. */
  readonly capacitance: Matrix<FaradsPerMetre>
  /** The same without dielectrics. */
  readonly inAir: Matrix<FaradsPerMetre>
  /** Flux that a row's conductor and ground enclose, for one ampere in a column's: µ0 ε0 times the inverse of `inAir`. */
  readonly inductance: Matrix<HenriesPerMetre>
  readonly unknowns: number
}

export type Matrix<Entry extends number> = readonly (readonly Entry[])[]

/**
 * Matrices of any number of conductors in a picture without symmetry, or of the conductors on the axis of a
 * symmetric one. Both are symmetrised: what they lack of it, they lack of accuracy.
 *
 * Throws RangeError when the walls are no picture or need too many unknowns.
 */
export function lineMatrices(problem: FieldProblem, refinement: Refinement): LineMatrices {
  const parity = problem.symmetric ? 'even' : 'whole'
  const assembly = assemble(problem, meshProblem(problem, refinement), problem.symmetric ? 'even' : undefined)
  const { filled, empty } = solveFilledAndEmpty(assembly, parity)
  const inAir = symmetrised(empty.capacitances)
  return {
    capacitance: symmetrised(filled.capacitances),
    inAir,
    inductance: inductanceOf(inAir),
    unknowns: filled.unknowns,
  }
}

/** µ0 ε0 C⁻¹: without dielectrics every mode travels at the speed of light. */
function inductanceOf(inAir: Matrix<FaradsPerMetre>): Matrix<HenriesPerMetre> {
  // In units of 1/c² the entries of C are near one, and the elimination is well scaled.
  const scale = SPEED_OF_LIGHT ** 2
  const factored = factor(inAir.map((row) => row.map((entry) => entry * scale)))
  return symmetrised(
    inAir.map((_, column) => factored.solve(inAir.map((__, row) => (row === column ? 1 : 0)))),
  )
}

function symmetrised(matrix: Matrix<number>): Matrix<number> {
  return matrix.map((row, i) => row.map((entry, j) => (entry + Number(matrix[j]?.[i])) / 2))
}
