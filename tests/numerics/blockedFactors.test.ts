import { index as at, lusolve, matrix, multiply, norm, range, subset, subtract } from 'mathjs'
import numeric from 'numeric'
import { describe, expect, it } from 'vitest'
import { blockedFactors, solveFactored } from '../../src/numerics/blockedFactors.ts'
import { SolverError } from '../../src/numerics/solverError.ts'

/** Entries between −1 and 1, the same in each run (multiplicative congruences, Park and Miller 1988). */
function entriesFrom(seed: number, count: number): number[] {
  let state = seed
  return Array.from({ length: count }, () => {
    state = (state * 48271) % 2147483647
    return (2 * state) / 2147483647 - 1
  })
}

function rowsOf(entries: readonly number[], size: number): number[][] {
  return Array.from({ length: size }, (_, row) => entries.slice(row * size, (row + 1) * size))
}

function solve(entries: readonly number[], size: number, right: readonly number[], leading = size): number[] {
  const factors = blockedFactors(Float64Array.from(entries), size, leading)
  return [...solveFactored(factors, Float64Array.from(right))]
}

function largestDifference(one: readonly number[], other: readonly number[]): number {
  return Math.max(...one.map((value, place) => Math.abs(value - Number(other[place]))))
}

describe('blockedFactors', () => {
  // Both sides of every remainder by blocks of four columns and pairs of rows.
  it.each([1, 2, 3, 4, 5, 6, 7, 8, 9, 12, 17, 50, 123])('solves what numeric solves, %i rows', (size) => {
    const entries = entriesFrom(size, size * size)
    const right = entriesFrom(size + 1000, size)
    const theirs = numeric.LUsolve(numeric.LU(rowsOf(entries, size)), right)
    expect(largestDifference(solve(entries, size, right), theirs)).toBeLessThan(1e-9)
  })

  it('leaves no more than rounding of the right-hand side', () => {
    const size = 60
    const entries = entriesFrom(7, size * size)
    const right = entriesFrom(8, size)
    const left = multiply(matrix(rowsOf(entries, size)), solve(entries, size, right))
    expect(Number(norm(subtract(left, matrix(right))))).toBeLessThan(1e-10)
  })

  it('exchanges rows where a pivot is nought', () => {
    expect(solve([0, 1, 1, 0], 2, [3, 5])).toEqual([5, 3])
    expect(solve([0, 0, 2, 0, 4, 0, 8, 0, 0], 3, [2, 4, 8])).toEqual([1, 1, 1])
  })

  it.each([3, 4, 5, 8, 10, 13])(
    'solves the leading block of %i rows of thirteen on its own, and all of them',
    (leading) => {
      const size = 13
      const rows = rowsOf(entriesFrom(leading, size * size), size)
      const right = entriesFrom(leading + 500, size)
      const block = subset(matrix(rows), at(range(0, leading), range(0, leading)))
      const ofBlock = lusolve(block, right.slice(0, leading)).valueOf().flat().map(Number)
      const entries = rows.flat()
      expect(largestDifference(solve(entries, size, right.slice(0, leading), leading), ofBlock)).toBeLessThan(
        1e-10,
      )
      const ofAll = lusolve(matrix(rows), right).valueOf().flat().map(Number)
      expect(largestDifference(solve(entries, size, right, leading), ofAll)).toBeLessThan(1e-10)
    },
  )

  it('takes the matrix from the beginning of longer room', () => {
    const factors = blockedFactors(Float64Array.of(2, 0, 0, 4, 9, 9, 9), 2)
    expect([...solveFactored(factors, Float64Array.of(2, 4))]).toEqual([1, 1])
  })

  it('says that a singular matrix is singular', () => {
    expect(() => solve([1, 2, 2, 4], 2, [1, 1])).toThrow(SolverError)
  })

  it('refuses too few entries, a block that is too large and another right-hand side', () => {
    expect(() => blockedFactors(new Float64Array(3), 2)).toThrow(/2 rows/)
    expect(() => blockedFactors(new Float64Array(4), 2, 3)).toThrow(/3 of them leading/)
    const factors = blockedFactors(Float64Array.of(1, 0, 0, 1), 2)
    expect(() => solveFactored(factors, new Float64Array(1))).toThrow(/right-hand side of 2/)
  })
})
