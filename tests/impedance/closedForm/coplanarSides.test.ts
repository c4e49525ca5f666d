import { describe, expect, it } from 'vitest'
import { withSideGrounds } from '../../../src/impedance/closedForm/coplanarSides.ts'
import { FREE_SPACE_IMPEDANCE } from '../../../src/units/constants.ts'

const alone = { impedance: 60, effectivePermittivity: 2.9 }

describe('withSideGrounds', () => {
  it('is the line alone when the side grounds add little', () => {
    const { impedance, effectivePermittivity } = withSideGrounds({ dielectric: 1, air: 0.5 }, alone)
    expect(impedance).toBeCloseTo(60, 8)
    expect(effectivePermittivity).toBeCloseTo(2.9, 8)
  })

  it('is what the side grounds make of it when they are near', () => {
    const { impedance, effectivePermittivity } = withSideGrounds({ dielectric: 40, air: 16 }, alone)
    expect(impedance).toBeCloseTo(FREE_SPACE_IMPEDANCE / Math.sqrt(640), 8)
    expect(effectivePermittivity).toBeCloseTo(2.5, 8)
  })
})
