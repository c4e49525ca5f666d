import { evaluate } from 'mathjs'
import { describe, expect, it } from 'vitest'
import { backedRatio } from '../../../src/impedance/closedForm/coplanarGhioneNaldi.ts'
import { withSideGrounds } from '../../../src/impedance/closedForm/coplanarSides.ts'
import { coplanarStripline, LIMITS } from '../../../src/impedance/closedForm/coplanarStripline.ts'
import { equivalentSpacing } from '../../../src/impedance/closedForm/offsetEquivalentSpacing.ts'
import { striplineWidening } from '../../../src/impedance/closedForm/striplineWheeler.ts'
import { twoDielectricSideWalls } from '../../../src/impedance/closedForm/twoDielectricSideWalls.ts'
import { FREE_SPACE_IMPEDANCE } from '../../../src/units/constants.ts'
import { offset, tenfold } from '../../helpers/lineShapes.ts'

const line = { ...offset(100, 18, 120, 200, 1), permittivityBelow: 4, permittivityAbove: 3.6, gap: 80e-6 }

describe('coplanarStripline', () => {
  // Exact by symmetry for a thin strip midway: every half space has the plane-backed capacitance 2 ε r3.
  it('is exact for a thin strip midway with near side grounds', () => {
    const thin = { ...offset(100, 0, 150, 150, 1), permittivityBelow: 4, permittivityAbove: 4, gap: 20e-6 }
    const exact = FREE_SPACE_IMPEDANCE / (2 * 4 * backedRatio(50, 70, 150))
    expect(coplanarStripline(thin).impedance).toBeCloseTo(exact, 3)
    expect(coplanarStripline(thin).effectivePermittivity).toBeCloseTo(4, 9)
  })

  it('comes within 3 % of the stripline when the side grounds are far', () => {
    const { impedance } = coplanarStripline({ ...line, gap: 5e-3 })
    const alone = twoDielectricSideWalls(line).impedance
    expect(Math.abs(impedance / alone - 1)).toBeLessThan(0.03)
  })

  // Capacitances by an independent evaluation of the expression in the doc block.
  it('adds half spaces and side walls as it describes', () => {
    const air = { ...line, relativePermittivity: 1 }
    const a = (line.width + 0.3 * striplineWidening({ ...air, spacing: equivalentSpacing(air) })) / 2
    const scope = { p: backedRatio(a, a + 80e-6, 120e-6), q: backedRatio(a, a + 80e-6, 200e-6), s: 18 / 80 }
    const dielectric = evaluate('2 * 4 * p + 2 * 3.6 * q + 2 * 3.6 * s', scope) as number
    const inAir = evaluate('2 * p + 2 * q + 2 * s', scope) as number
    const expected = withSideGrounds({ dielectric, air: inAir }, twoDielectricSideWalls(line))
    expect(coplanarStripline(line).impedance).toBeCloseTo(expected.impedance, 10)
    expect(coplanarStripline(line).effectivePermittivity).toBeCloseTo(expected.effectivePermittivity, 11)
  })

  it('knows no scale, refuses a missing gap, and has a box', () => {
    expect(coplanarStripline(tenfold(line)).impedance).toBeCloseTo(coplanarStripline(line).impedance, 11)
    expect(() => coplanarStripline({ ...line, gap: 0 })).toThrow(RangeError)
    expect(LIMITS.map(({ quantity }) => quantity)).toContain('gap/near distance')
  })
})
