import { describe, expect, it } from 'vitest'
import { fromGrid, GRID, toGrid } from '../../../src/escape/clearance/gridUnits.ts'

describe('the grid that copper is compared on', () => {
  it('holds whole nanometres, and halves of them, as they are', () => {
    expect([0.8e-3, 0.5e-9, 12.3455e-6, -0.325e-3].map(toGrid)).toEqual([8e8, 500, 12_345_500, -3.25e8])
  })

  // 1 mil = 25.4 um exactly: international yard and pound agreement, 1959.
  it('holds thousandths of a mil as they are', () => {
    expect([0.001, 3.937, 5, 39.3].map((mil) => toGrid(mil * 25.4e-6))).toEqual([
      25_400, 99_999_800, 127_000_000, 998_220_000,
    ])
  })

  it('rounds a half step away from zero, so that a mirrored length stays mirrored', () => {
    expect([2.5, -2.5, 0.5, -0.5].map((steps) => toGrid(steps * GRID))).toEqual([3, -3, 1, -1])
  })

  it('gives lengths back within half a step', () => {
    for (const length of [1 / 3e3, Math.SQRT1_2 * 1e-4, -7.7e-5]) {
      expect(Math.abs(fromGrid(toGrid(length)) - length)).toBeLessThanOrEqual(0.5 * GRID * (1 + 1e-9))
    }
  })

  it.each([NaN, Infinity, -Infinity])('refuses %d', (length) => {
    expect(() => toGrid(length)).toThrow(RangeError)
  })
})
