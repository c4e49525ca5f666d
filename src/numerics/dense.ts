import numeric from 'numeric'
import { SolverError } from './solverError.ts'

/** A square matrix, factored once for many right-hand sides. */
export interface Factored {
  solve(rightHandSide: readonly number[]): number[]
}

/**
 * LU factors, with partial pivoting, of a dense real matrix given by rows. The rows are overwritten.
 *
 * Throws RangeError when the matrix is not square, SolverError from `solve` when it is singular to
 * working precision: the library returns NaN there without a word.
 */
export function factor(rows: number[][]): Factored {
  if (rows.length === 0 || rows.some((row) => row.length !== rows.length)) {
    throw new RangeError(`a square matrix is needed, got ${rows.length} rows of ${rows[0]?.length ?? 0}`)
  }
  const factors = numeric.LU(rows, true)
  return {
    solve: (rightHandSide) => {
      const solution = numeric.LUsolve(factors, [...rightHandSide])
      if (!solution.every(Number.isFinite)) throw new SolverError('dense solution', 1, NaN, 0)
      return solution
    },
  }
}
