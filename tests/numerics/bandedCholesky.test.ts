import { describe, expect, it } from 'vitest'
import { solveBanded, type BandedMatrix } from '../../src/numerics/bandedCholesky.ts'
import { factor } from '../../src/numerics/dense.ts'
import { SolverError } from '../../src/numerics/solverError.ts'

/** Entries between −1 and 1, the same in each run (multiplicative congruences, Park and Miller 1988). */
function entriesFrom(seed: number, count: number): number[] {
  let state = seed
  return Array.from({ length: count }, () => {
    state = (state * 48271) % 2147483647
    return (2 * state) / 2147483647 - 1
  })
}

/** B Bᵀ + I/10 of a lower band of numbers drawn: positive definite whatever is drawn, and not dominated by its diagonal. */
function drawnRows(seed: number, size: number, band: number): number[][] {
  const entries = entriesFrom(seed, size * size)
  const half = (row: number, column: number): number =>
    row >= column && row - column <= band ? Number(entries[row * size + column]) : 0
  return Array.from({ length: size }, (_, row) =>
    Array.from({ length: size }, (_, column) => {
      let sum = row === column ? 0.1 : 0
      for (let k = 0; k < size; k += 1) sum += half(row, k) * half(column, k)
      return sum
    }),
  )
}

/** What lies before the first column is filled with what must not be looked at. */
function bandOf(rows: readonly (readonly number[])[], band: number): BandedMatrix {
  const lower = rows.flatMap((row, index) =>
    Array.from({ length: band + 1 }, (_, place) => row[index - band + place] ?? NaN),
  )
  return { band, lower: Float64Array.from(lower) }
}

describe('solveBanded', () => {
  // numeric.js factors with pivoting, of the whole matrix (numerics/dense.ts).
  it.each([
    { size: 1, band: 0 },
    { size: 5, band: 0 },
    { size: 6, band: 1 },
    { size: 7, band: 6 },
    { size: 4, band: 9 },
    { size: 40, band: 3 },
    { size: 60, band: 17 },
  ])('solves what dense factors solve: $size rows, a band of $band', ({ size, band }) => {
    for (const seed of [11, 12, 13]) {
      const rows = drawnRows(seed, size, band)
      const right = entriesFrom(seed + 100, size)
      const banded = solveBanded(bandOf(rows, band), Float64Array.from(right))
      const theirs = factor(rows.map((row) => [...row])).solve(right)
      const largest = Math.max(...theirs.map(Math.abs))
      for (const [row, value] of theirs.entries()) {
        expect(Math.abs(Number(banded[row]) - value)).toBeLessThan(1e-9 * largest)
      }
    }
  })

  it('solves the second difference of a row of nodes: u = k (n + 1 − k)/2 for a load of one on each of n', () => {
    const size = 9
    const lower = Float64Array.from({ length: 2 * size }, (_, place) => (place % 2 === 0 ? -1 : 2))
    const solution = solveBanded({ band: 1, lower }, new Float64Array(size).fill(1))
    for (const [index, value] of solution.entries()) {
      const k = index + 1
      expect(value).toBeCloseTo((k * (size + 1 - k)) / 2, 12)
    }
  })

  it('puts the solution where the right-hand side was', () => {
    const right = Float64Array.from([8, 27])
    expect(solveBanded({ band: 0, lower: Float64Array.from([4, 9]) }, right)).toBe(right)
    expect([...right]).toEqual([2, 3])
  })

  it('refuses sizes that do not fit each other', () => {
    const lower = Float64Array.from([4, 9, 1])
    expect(() => solveBanded({ band: 0, lower }, new Float64Array(2))).toThrow(
      new RangeError('a band of 0 and 2 rows need 2 entries, got 3'),
    )
  })

  it('refuses a matrix that is not positive definite, singular or undefined', () => {
    const solve = (...lower: number[]): Float64Array =>
      solveBanded({ band: 1, lower: Float64Array.from(lower) }, Float64Array.from([1, 1]))
    expect(() => solve(0, 1, 2, 1)).toThrow(SolverError)
    expect(() => solve(0, 1, 1, 1)).toThrow(SolverError)
    expect(() => solve(0, -1, 0, 1)).toThrow(SolverError)
    expect(() => solve(0, NaN, 0, 1)).toThrow(SolverError)
  })
})
