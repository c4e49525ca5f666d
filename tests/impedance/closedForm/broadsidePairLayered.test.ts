import { describe, expect, it } from 'vitest'
import {
  broadsidePairLayered,
  type BroadsideSide,
  type LayeredBroadsidePair,
} from '../../../src/impedance/closedForm/broadsidePairLayered.ts'
import { broadsidePairThick } from '../../../src/impedance/closedForm/broadsidePairThick.ts'
import { striplineExactWithThickness } from '../../../src/impedance/closedForm/striplineExactWithThickness.ts'
import { twoDielectricSideWalls } from '../../../src/impedance/closedForm/twoDielectricSideWalls.ts'

const side = (
  toPlane: number,
  relativePermittivity: number,
  bodyIn: BroadsideSide['bodyIn'],
): BroadsideSide => ({
  toPlane,
  relativePermittivity,
  bodyIn,
})
const layered = (between: number, sides: LayeredBroadsidePair['sides']): LayeredBroadsidePair => ({
  ...{ width: 120, thickness: 18, separation: 100 },
  permittivityBetween: between,
  sides,
})
const air = (toPlane: number) =>
  broadsidePairThick({ width: 120, thickness: 18, separation: 100, toPlane, relativePermittivity: 1 })

describe('broadsidePairLayered', () => {
  it('is the thick pair in one dielectric', () => {
    const { even, odd } = broadsidePairLayered(layered(4, [side(150, 4, 'outer'), side(150, 4, 'between')]))
    expect(even.effectivePermittivity).toBeCloseTo(4, 12)
    expect(odd.effectivePermittivity).toBeCloseTo(4, 12)
    expect(even.impedance).toBeCloseTo(air(150).even / 2, 10)
    expect(odd.impedance).toBeCloseTo(air(150).odd / 2, 10)
  })

  it('makes of the odd mode a two-dielectric strip over the virtual ground, whichever way the body stands', () => {
    const outer = twoDielectricSideWalls({
      ...{ width: 120, thickness: 18, below: 50, above: 150 },
      ...{ permittivityBelow: 3.2, permittivityAbove: 4.2 },
    })
    const inner = twoDielectricSideWalls({
      ...{ width: 120, thickness: 18, below: 150, above: 50 },
      ...{ permittivityBelow: 4.2, permittivityAbove: 3.2 },
    })
    const permittivity = (bodyIn: BroadsideSide['bodyIn']): number =>
      broadsidePairLayered(layered(3.2, [side(150, 4.2, bodyIn), side(150, 4.2, bodyIn)])).odd
        .effectivePermittivity
    expect(permittivity('outer')).toBeCloseTo(outer.effectivePermittivity, 12)
    expect(permittivity('between')).toBeCloseTo(inner.effectivePermittivity, 12)
  })

  it('gives the dielectric between the strips what of the even field does not go straight to the planes', () => {
    const facing = striplineExactWithThickness({
      width: 120,
      thickness: 18,
      spacing: 318,
      relativePermittivity: 1,
    })
    const inner = 1 - air(150).even / (2 * facing)
    const pair = layered(3, [side(150, 4.2, 'outer'), side(150, 4.2, 'outer')])
    expect(broadsidePairLayered(pair).even.effectivePermittivity).toBeCloseTo(4.2 - 1.2 * inner, 10)
    expect(inner).toBeGreaterThan(0)
    expect(inner).toBeLessThan(0.5)
  })

  it('adds the capacitances of strips at unlike distances', () => {
    const pair = layered(4, [side(100, 4, 'outer'), side(200, 4, 'outer')])
    const mean = 2 / (1 / air(100).odd + 1 / air(200).odd)
    expect(broadsidePairLayered(pair).odd.impedance).toBeCloseTo(mean / 2, 10)
  })
})
