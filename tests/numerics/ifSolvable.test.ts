import { describe, expect, it } from 'vitest'
import { ifSolvable } from '../../src/numerics/ifSolvable.ts'
import { SolverError } from '../../src/numerics/solverError.ts'

describe('a trial', () => {
  const failing = (error: Error) => (): number => {
    throw error
  }

  it('gives what it finds, and nothing where the stage refuses or does not converge', () => {
    expect(ifSolvable(() => 7)).toBe(7)
    expect(ifSolvable(failing(new RangeError('copper etches away')))).toBeNull()
    expect(ifSolvable(failing(new SolverError('dense solution', 1, NaN, 0)))).toBeNull()
  })

  it('hides no other fault', () => {
    expect(() => ifSolvable(failing(new TypeError('a fault')))).toThrow('a fault')
  })
})
