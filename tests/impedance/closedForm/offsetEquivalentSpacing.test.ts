import { describe, expect, it } from 'vitest'
import {
  equivalentSpacing,
  LIMITS,
  offsetEquivalentSpacing,
} from '../../../src/impedance/closedForm/offsetEquivalentSpacing.ts'
import { offsetPlateLimit } from '../../../src/impedance/closedForm/offsetPlateLimit.ts'
import { striplineWheeler } from '../../../src/impedance/closedForm/striplineWheeler.ts'
import { missedRows, within } from '../../helpers/compareTable.ts'
import { centred, offset, tenfold } from '../../helpers/lineShapes.ts'

describe('offsetEquivalentSpacing', () => {
  // Independent implementation of the same equations.
  it('has the check values', () => {
    const checks = [
      [offset(100, 35, 100, 200, 4), 48.3424309275],
      [offset(75, 18, 75, 300, 3.5), 57.6814233694],
      [offset(150, 12, 50, 500, 3), 37.1993600228],
    ] as const
    expect(
      missedRows(
        checks.map(([line, value]) => within(1e-9, String(value), offsetEquivalentSpacing(line), value)),
      ),
    ).toBe('')
  })

  it('is the centred line midway, and the same turned upside down', () => {
    expect(equivalentSpacing(offset(100, 35, 100, 100, 4))).toBeCloseTo(235e-6, 16)
    expect(offsetEquivalentSpacing(offset(100, 35, 100, 100, 4))).toBeCloseTo(
      striplineWheeler(centred(100, 235, 35, 4)),
      11,
    )
    expect(offsetEquivalentSpacing(offset(100, 35, 200, 100, 4))).toBeCloseTo(
      offsetEquivalentSpacing(offset(100, 35, 100, 200, 4)),
      11,
    )
  })

  it('tends to the wire as the strip narrows: the spacing of a centred wire of the same impedance', () => {
    const b = 400
    expect(equivalentSpacing(offset(0.01, 0, 100, 300, 4)) / (b * 1e-6 * Math.sin(Math.PI / 4))).toBeCloseTo(
      1,
      12,
    )
  })

  // Centred plates 300 apart hold the capacitance of plates 100 and 300 away: 4/300 = 1/100 + 1/300. What remains is
  // Wheeler's own error for strips beyond his range, 30 · 4/π · √6.27 for 94.18.
  it('tends to the plates as the strip widens, as far as its base formula does', () => {
    const line = offset(200000, 0, 100, 300, 4)
    expect(equivalentSpacing(line) / 300e-6).toBeCloseTo(1, 9)
    const base = ((29.979246 * 4) / Math.PI) * (Math.sqrt(6.27) / 94.182578)
    expect(offsetEquivalentSpacing(line) / offsetPlateLimit(line) / base).toBeCloseTo(1, 2)
  })

  it('knows no scale, and refuses a strip on its plane', () => {
    const line = offset(100, 35, 100, 200, 4)
    expect(offsetEquivalentSpacing(tenfold(line))).toBeCloseTo(offsetEquivalentSpacing(line), 11)
    expect(() => equivalentSpacing(offset(100, 35, 100, 0, 4))).toThrow(RangeError)
    expect(LIMITS.find(({ quantity }) => quantity === 'distance ratio')?.max).toBe(10)
  })
})
