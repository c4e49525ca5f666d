import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  backedRatio,
  coplanarGhioneNaldi,
  halfSpaceRatios,
  LIMITS,
} from '../../../src/impedance/closedForm/coplanarGhioneNaldi.ts'
import { striplineExact } from '../../../src/impedance/closedForm/striplineExact.ts'
import { FREE_SPACE_IMPEDANCE } from '../../../src/units/constants.ts'
import { missedRows, within } from '../../helpers/compareTable.ts'
import { microstrip, tenfold } from '../../helpers/lineShapes.ts'

const coplanar = (
  w: number,
  gap: number,
  h: number,
  er: number,
): Parameters<typeof coplanarGhioneNaldi>[0] => ({
  ...microstrip(w, h, 0, er),
  gap: gap * 1e-6,
})

describe('coplanarGhioneNaldi', () => {
  // Independent implementation of the same equations.
  it('has the check values', () => {
    const rows = [
      [coplanar(100, 100, 100, 4), 70.8226912729, 2.79402658361],
      [coplanar(200, 75, 250, 3.5), 67.081278106, 2.34328184601],
    ] as const
    expect(
      missedRows(
        rows.flatMap(([line, impedance, permittivity]) => {
          const got = coplanarGhioneNaldi(line)
          return [
            within(1e-9, 'impedance', got.impedance, impedance),
            within(1e-9, 'permittivity', got.effectivePermittivity, permittivity),
          ]
        }),
      ),
    ).toBe('')
  })

  it('has permittivity 1 in air, and the mean of both half spaces when the plane is far', () => {
    expect(coplanarGhioneNaldi(coplanar(100, 100, 100, 1)).effectivePermittivity).toBe(1)
    expect(coplanarGhioneNaldi(coplanar(100, 50, 1e6, 4)).effectivePermittivity).toBeCloseTo(2.5, 6)
  })

  // C. P. Wen, 1969: coplanar strip without plane, η0/4 · K(k′)/K(k); with k = 1/√2 the ratio is 1.
  it('is η0/4 in air with the plane far and k = 1/√2', () => {
    const line = coplanar(100, 50 * (Math.SQRT2 - 1), 1e7, 1)
    expect(coplanarGhioneNaldi(line).impedance).toBeCloseTo(FREE_SPACE_IMPEDANCE / 4, 6)
  })

  it('knows no scale, refuses a missing gap, and is for thin strips with gaps up to the height', () => {
    const line = coplanar(100, 80, 120, 4)
    expect(coplanarGhioneNaldi(tenfold(line)).impedance).toBeCloseTo(coplanarGhioneNaldi(line).impedance, 11)
    expect(() => coplanarGhioneNaldi({ ...line, gap: 0 })).toThrow(RangeError)
    expect(() => coplanarGhioneNaldi({ ...line, gap: Infinity })).toThrow(RangeError)
    expect(LIMITS.map(({ quantity, max }) => [quantity, max])).toEqual([
      ['thickness/gap', 0],
      ['gap/height', 1],
    ])
  })
})

describe('backedRatio', () => {
  // Between two planes b apart the strip's own plane of symmetry is a magnetic wall, so that far grounds leave the
  // exact stripline of Cohn 1954: 4 half spaces of r3(b/2) make its capacitance.
  it('makes the exact stripline when the side grounds are far', () => {
    const stripline = striplineExact({ width: 1, spacing: 1, relativePermittivity: 1 })
    expect(FREE_SPACE_IMPEDANCE / (4 * backedRatio(0.5, 30, 0.5))).toBeCloseTo(stripline, 9)
  })

  it('tends to the open half space as the plane goes away', () => {
    const { open, backed } = halfSpaceRatios(1, 2, 1e5)
    expect(backed).toBeCloseTo(open, 9)
  })

  it('stays finite for gaps as wide as they come', () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 1e5, noNaN: true }), (gap) => {
        const wide = backedRatio(1, 1 + gap, 1)
        expect(wide).toBeGreaterThan(backedRatio(1, 1e6, 1) * (1 - 1e-12))
      }),
      { seed: 17 },
    )
  })
})
