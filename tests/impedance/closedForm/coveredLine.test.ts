import { describe, expect, it } from 'vitest'
import { assertCoveredLine } from '../../../src/impedance/closedForm/coveredLine.ts'
import { microstrip } from '../../helpers/lineShapes.ts'

const LINE = microstrip(100, 100, 35, 4)

describe('assertCoveredLine', () => {
  it('takes no cover and a cover of air or hardly more', () => {
    for (const coverPermittivity of [1, 1.005])
      expect(() => {
        assertCoveredLine({ ...LINE, coverThickness: 0, coverPermittivity })
      }).not.toThrow()
  })

  it.each([
    [-1e-6, 3.5],
    [1e-5, 0.999],
    [NaN, 3.5],
    [Infinity, 3.5],
  ])('refuses a cover of thickness %s and permittivity %s', (coverThickness, coverPermittivity) => {
    expect(() => {
      assertCoveredLine({ ...LINE, coverThickness, coverPermittivity })
    }).toThrow(/cover needs/)
  })
})
