import { SolverError } from '../numerics/solverError.ts'

/**
 * What a field solution gives, or null where the section is beyond it: refused as too extreme, or singular to working
 * precision. The closed forms then stand alone.
 */
export function ifSolvable<T>(solve: () => T): T | null {
  try {
    return solve()
  } catch (error) {
    if (error instanceof RangeError || error instanceof SolverError) return null
    throw error
  }
}
