import { describe, expect, it } from 'vitest'
import { barrelDelay, permittivityAlong } from '../../src/signal/barrel.ts'
import { copper, dielectric, mask, plane, stackup } from '../helpers/stackup.ts'

const LIGHT = 299_792_458
const layers = stackup(
  mask('top'),
  copper('L1'),
  dielectric('a', 100, 4),
  plane('L2'),
  dielectric('b', 200, 9),
  copper('L3'),
  dielectric('c', 50, 2),
  copper('L4'),
  mask('bottom'),
)

describe('the dielectric around a barrel', () => {
  it('between neighbouring layers is the sheet between them', () => {
    expect(permittivityAlong(layers, 1, 2)).toBeCloseTo(4, 12)
    expect(permittivityAlong(layers, 3, 4)).toBeCloseTo(2, 12)
  })

  it('in series takes as long as its sheets one after the other', () => {
    const parts = (100e-6 * 2 + 200e-6 * 3) / LIGHT
    expect(barrelDelay(300e-6, permittivityAlong(layers, 1, 3)) / parts).toBeCloseTo(1, 12)
  })

  it('is the same from either end, and does not count mask or copper', () => {
    expect(permittivityAlong(layers, 4, 1)).toBe(permittivityAlong(layers, 1, 4))
  })

  it('is refused where there is none', () => {
    expect(() => permittivityAlong(layers, 2, 2)).toThrow(RangeError)
  })
})
