import { describe, expect, it } from 'vitest'
import { contrastOf, narrowingError, sheetsError } from '../../../src/impedance/formulas/addedErrors.ts'
import { lineSection, TEST_FREQUENCY } from '../../helpers/lineSection.ts'

const traceOf = (topWidth: number): Parameters<typeof narrowingError>[0] =>
  lineSection({ width: 1e-4, topWidth, thickness: 2e-5, below: [[1e-4, 4]] }).trace

describe('narrowingError', () => {
  it('is nothing for a rectangle and grows with the narrowing', () => {
    expect(narrowingError(traceOf(1e-4)).error).toBe(0)
    expect(narrowingError(traceOf(1.1e-4)).error).toBe(0)
    expect(narrowingError(traceOf(0.5e-4)).error).toBeCloseTo(2 * narrowingError(traceOf(0.75e-4)).error, 12)
  })

  it('is 0.4 % for a trace that loses a fifth of its width', () => {
    expect(narrowingError(traceOf(0.8e-4)).error).toBeCloseTo(0.004, 12)
  })
})

describe('sheetsError', () => {
  it('is nothing for one material and 0.3 % for a contrast of a tenth', () => {
    const below = (first: number, second: number): Parameters<typeof sheetsError>[0] =>
      lineSection({
        width: 1e-4,
        thickness: 2e-5,
        below: [
          [1e-4, first],
          [1e-4, second],
        ],
      }).below
    expect(sheetsError(below(4, 4), TEST_FREQUENCY).error).toBe(0)
    expect(sheetsError(below(4, 4.4), TEST_FREQUENCY).error).toBeCloseTo(0.003, 12)
    expect(sheetsError(below(4.4, 4), TEST_FREQUENCY).error).toBeCloseTo(0.003, 12)
  })
})

describe('contrastOf', () => {
  it('is the largest over the smallest, and 1 for none', () => {
    expect(contrastOf([3, 4.5, 3.6])).toBe(1.5)
    expect(contrastOf([])).toBe(1)
  })
})
