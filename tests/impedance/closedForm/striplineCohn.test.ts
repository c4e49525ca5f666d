import { describe, expect, it } from 'vitest'
import {
  NARROW_LIMITS,
  SEAM,
  striplineCohn,
  striplineCornerFringing,
  WIDE_LIMITS,
} from '../../../src/impedance/closedForm/striplineCohn.ts'
import { striplineExact } from '../../../src/impedance/closedForm/striplineExact.ts'
import { missedRows, within } from '../../helpers/compareTable.ts'
import { centred, tenfold } from '../../helpers/lineShapes.ts'

describe('striplineCohn', () => {
  // Independent implementation of the same equations.
  it('has the check values of the corner and of both forms', () => {
    expect(
      missedRows([
        within(1e-9, 'corner, no thickness', striplineCornerFringing(0), 0.441271200305),
        within(1e-9, 'corner, t/b 0.1', striplineCornerFringing(0.1), 0.579829688662),
        within(1e-9, 'corner, t/b 0.3', striplineCornerFringing(0.3), 0.801506471386),
        within(1e-9, 'wide', striplineCohn(centred(150, 235, 35, 4)), 33.9997927884),
        within(1e-9, 'narrow', striplineCohn(centred(100, 635, 35, 4)), 70.6447283377),
      ]),
    ).toBe('')
  })

  it('has the corner of a thin strip, 2 ln 2/π, and reaches it without a step', () => {
    expect(striplineCornerFringing(0)).toBeCloseTo((2 * Math.LN2) / Math.PI, 14)
    expect(striplineCornerFringing(1e-9)).toBeCloseTo((2 * Math.LN2) / Math.PI, 7)
  })

  it('is exact for a wide thin strip', () => {
    const line = centred(3000, 235, 0, 4)
    expect(striplineCohn(line)).toBeCloseTo(striplineExact(line), 9)
  })

  // For t = 0 the equivalent wire has half the width: exact in the limit.
  it('is exact for a narrow thin strip', () => {
    const line = centred(0.01, 235, 0, 4)
    expect(striplineCohn(line) / striplineExact(line)).toBeCloseTo(1, 7)
  })

  // S. B. Cohn, 1954: the two forms differ by less than 1.2 % where they meet, for thin strips.
  it('changes from one form to the other at w/(b − t) = 0.35 by the 1.2 % that it states', () => {
    expect(SEAM).toBe(0.35)
    const width = SEAM * 200
    const below = striplineCohn(centred(width * (1 - 1e-9), 207, 7, 4))
    const above = striplineCohn(centred(width * (1 + 1e-9), 207, 7, 4))
    expect(below).not.toBeCloseTo(above, 4)
    expect(Math.abs(below / above - 1)).toBeLessThan(0.012)
  })

  it('refuses a strip so much thicker than wide that its equivalent wire does not fit', () => {
    expect(() => striplineCohn(centred(2, 235, 60, 4))).toThrow(/no answer for a strip/)
    // π d0 = 4.02 b for this width, just past the 4 b at which the logarithm is zero.
    expect(() => striplineCohn(centred(14.186883, 235, 60, 4))).toThrow(/no answer for a strip/)
  })

  it('knows no scale, refuses a strip without width, and states both ranges', () => {
    const line = centred(40, 235, 4, 4)
    expect(striplineCohn(tenfold(line))).toBeCloseTo(striplineCohn(line), 11)
    expect(() => striplineCohn(centred(0, 235, 35, 4))).toThrow(RangeError)
    expect(WIDE_LIMITS[0]?.min).toBe(0.35)
    expect(NARROW_LIMITS.map(({ quantity, max }) => [quantity, max])).toEqual([
      ['width/(spacing - thickness)', 0.35],
      ['thickness/spacing', 0.25],
      ['thickness/width', 0.11],
    ])
  })
})
