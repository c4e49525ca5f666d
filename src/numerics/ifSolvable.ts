import { SolverError } from './solverError.ts'

/**
 * What a stage answers, or null where it refuses with a RangeError what cannot be (copper that would etch away, a section
 * too extreme to draw) or does not converge (SolverError): of a trial that is an answer. Anything else is a fault, and
 * goes on.
 */
export function ifSolvable<T>(solve: () => T): T | null {
  try {
    return solve()
  } catch (error) {
    if (error instanceof RangeError || error instanceof SolverError) return null
    throw error
  }
}
