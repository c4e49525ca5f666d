import { expect, it } from 'vitest'
import { SolverError } from '../../src/numerics/solverError.ts'

it('carries what failed, how far it got and what was wanted', () => {
  const error = new SolverError('root bracketing', 7, 0.5, 1e-9)
  expect(error).toMatchObject({ name: 'SolverError', iterations: 7, residual: 0.5, tolerance: 1e-9 })
  expect(error.message).toBe('root bracketing: residual 0.5 above 1e-9 after 7 iterations')
})
