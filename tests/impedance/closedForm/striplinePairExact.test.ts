import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { striplineExact } from '../../../src/impedance/closedForm/striplineExact.ts'
import { LIMITS, striplinePairExact } from '../../../src/impedance/closedForm/striplinePairExact.ts'
import { missedRows } from '../../helpers/compareTable.ts'
import { tenfold } from '../../helpers/lineShapes.ts'
import { centredPair, checkValues } from '../../helpers/pairShapes.ts'

const positive = fc.double({ min: 0.05, max: 3, noNaN: true })

describe('striplinePairExact', () => {
  it('has the check values of an independent implementation of the same equations', () => {
    const [first, second] = [centredPair(500, 200, 1000, 0, 1), centredPair(100, 100, 300, 0, 4)].map(
      striplinePairExact,
    )
    const rows = [
      ...checkValues('air', [first?.even ?? NaN, first?.odd ?? NaN], [117.086502931, 80.103443332]),
      ...checkValues('4', [second?.even ?? NaN, second?.odd ?? NaN], [69.8352100988, 52.7043640623]),
    ]
    expect(missedRows(rows)).toBe('')
  })

  it('is two single strips when far apart', () => {
    const { even, odd } = striplinePairExact(centredPair(100, 5000, 300, 0, 4))
    const single = striplineExact(centredPair(100, 1, 300, 0, 4))
    expect(even / single).toBeCloseTo(1, 12)
    expect(odd / single).toBeCloseTo(1, 12)
  })

  it('is one strip of twice the width when the even pair closes up (Landen transformation)', () => {
    fc.assert(
      fc.property(positive, (width) => {
        const pair = { width, gap: 1e-13, spacing: 1, relativePermittivity: 1 }
        const merged = striplineExact({ width: 2 * width, spacing: 1, relativePermittivity: 1 })
        expect(striplinePairExact(pair).even / (2 * merged)).toBeCloseTo(1, 10)
      }),
      { seed: 1955, numRuns: 50 },
    )
  })

  it('gains a plate w/d and half a corner per edge in the wide limit', () => {
    // One strip in the odd mode, w/b large: each unit of width adds 4/b to the capacitance over ε, exactly.
    const air = (width: number): number =>
      376.730313668 / striplinePairExact({ width, gap: 0.3, spacing: 1, relativePermittivity: 1 }).odd
    expect(air(9) - air(8)).toBeCloseTo(4, 8)
  })

  it('keeps the odd mode below the single strip and the even mode above', () => {
    fc.assert(
      fc.property(positive, positive, (width, gap) => {
        const { even, odd } = striplinePairExact({ width, gap, spacing: 1, relativePermittivity: 1 })
        const single = striplineExact({ width, spacing: 1, relativePermittivity: 1 })
        expect(even).toBeGreaterThanOrEqual(single * (1 - 1e-12))
        expect(odd).toBeLessThanOrEqual(single * (1 + 1e-12))
      }),
      { seed: 1955, numRuns: 100 },
    )
  })

  it('keeps its digits for wide strips, where the moduli press against 1', () => {
    const { even, odd } = striplinePairExact({ width: 30, gap: 20, spacing: 1, relativePermittivity: 1 })
    expect(even / odd).toBeCloseTo(1, 12)
  })

  it('knows no scale', () => {
    const pair = centredPair(100, 80, 300, 0, 4)
    expect(striplinePairExact(tenfold(pair)).odd).toBeCloseTo(striplinePairExact(pair).odd, 11)
  })

  it('states that it knows no thickness', () => {
    expect(LIMITS).toEqual([{ quantity: 'thickness/spacing', min: 0, max: 0 }])
  })

  it.each([0, -1, NaN, Infinity])('refuses a gap of %s', (gap) => {
    expect(() => striplinePairExact({ width: 1, gap, spacing: 1, relativePermittivity: 1 })).toThrow(
      RangeError,
    )
  })
})
