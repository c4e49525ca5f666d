/** An iteration that did not reach its tolerance. The last iterate is never passed off as an answer. */
export class SolverError extends Error {
  override readonly name = 'SolverError'
  readonly iterations: number
  readonly residual: number
  readonly tolerance: number

  constructor(what: string, iterations: number, residual: number, tolerance: number) {
    super(`${what}: residual ${residual} above ${tolerance} after ${iterations} iterations`)
    this.iterations = iterations
    this.residual = residual
    this.tolerance = tolerance
  }
}
