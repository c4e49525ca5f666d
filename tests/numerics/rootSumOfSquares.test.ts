import { describe, expect, it } from 'vitest'
import { rootSumOfSquares } from '../../src/numerics/rootSumOfSquares.ts'

describe('the root sum of squares', () => {
  // JCGM 100:2008, 5.1.2: of independent quantities that add up the standard uncertainties add in squares; 3, 4 and 12 give 13.
  it('adds what inputs do on each side in squares', () => {
    const inputs = [
      { atLower: -3, atUpper: 3 },
      { atLower: 4, atUpper: -4 },
      { atLower: -12, atUpper: 12 },
    ]
    expect(rootSumOfSquares(inputs)).toEqual({ lowest: -13, highest: 13 })
  })

  it('keeps the sides apart, and leaves out what an input does not do', () => {
    const inputs = [
      { atLower: -3, atUpper: 1 },
      { atLower: 0, atUpper: -4 },
    ]
    expect(rootSumOfSquares(inputs)).toEqual({ lowest: -5, highest: 1 })
  })

  it('is nothing without inputs', () => {
    expect(rootSumOfSquares([])).toEqual({ lowest: 0, highest: 0 })
  })
})
