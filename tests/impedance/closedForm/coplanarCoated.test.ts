import { evaluate } from 'mathjs'
import { describe, expect, it } from 'vitest'
import { coplanarCoated, LIMITS } from '../../../src/impedance/closedForm/coplanarCoated.ts'
import { coplanarSideWalls, sideCapacitances } from '../../../src/impedance/closedForm/coplanarSideWalls.ts'
import { withSideGrounds } from '../../../src/impedance/closedForm/coplanarSides.ts'
import { microstripCoatFilling } from '../../../src/impedance/closedForm/microstripCoatFilling.ts'
import { microstrip, tenfold } from '../../helpers/lineShapes.ts'

const line = {
  ...microstrip(100, 150, 35, 4),
  gap: 80e-6,
  coverThickness: 20e-6,
  coverPermittivity: 3.5,
}

describe('coplanarCoated', () => {
  it('is the bare coplanar line without coat', () => {
    const bare = coplanarSideWalls(line)
    const none = coplanarCoated({ ...line, coverThickness: 0 })
    expect(none.impedance).toBeCloseTo(bare.impedance, 11)
    expect(none.effectivePermittivity).toBeCloseTo(bare.effectivePermittivity, 11)
  })

  it('fills gap and half space entirely under an endless coat: the permittivity of a buried line', () => {
    const buried = coplanarCoated({ ...line, coverThickness: 1, coverPermittivity: 4 })
    expect(buried.effectivePermittivity).toBeCloseTo(4, 1)
  })

  // The filling shares by an independent evaluation of the expressions in the doc block.
  it('fills as it describes', () => {
    const scope = { c: 20, g: 80, w: 100, k: 3.5 }
    const above = evaluate('1 + (k - 1) * (1 - exp(-3.6 * c / sqrt(g * w)))', scope) as number
    const walls = evaluate('1 / (exp(-2.6 * c / g) + (1 - exp(-2.6 * c / g)) / k)', scope) as number
    const expected = withSideGrounds(sideCapacitances(line, above, walls), microstripCoatFilling(line))
    expect(coplanarCoated(line).impedance).toBeCloseTo(expected.impedance, 10)
  })

  it('falls with the coat, knows no scale, refuses a negative coat, and has a box', () => {
    const { impedance } = coplanarCoated(line)
    expect(coplanarCoated({ ...line, coverThickness: 30e-6 }).impedance).toBeLessThan(impedance)
    expect(coplanarCoated(tenfold(line)).impedance).toBeCloseTo(impedance, 11)
    expect(() => coplanarCoated({ ...line, coverThickness: -1 })).toThrow(RangeError)
    expect(() => coplanarCoated({ ...line, gap: 0 })).toThrow(RangeError)
    expect(LIMITS.map(({ quantity }) => quantity)).toContain('coat thickness/height')
  })
})
