import { describe, expect, it } from 'vitest'
import {
  LIMITS,
  microstripDispersionKirschningJansen,
} from '../../../src/impedance/closedForm/microstripDispersionKirschningJansen.ts'
import { zeroThicknessPermittivity } from '../../../src/impedance/closedForm/microstripHammerstadJensen.ts'
import { missedRows } from '../../helpers/compareTable.ts'
import { checkValues } from '../../helpers/pairShapes.ts'

/** On a substrate 1 mm thick, so that gigahertz are GHz mm. */
function permittivity(u: number, er: number, gigahertz: number): number {
  return microstripDispersionKirschningJansen(
    { width: u * 1e-3, height: 1e-3, relativePermittivity: er },
    zeroThicknessPermittivity(u, er),
    gigahertz * 1e9,
  )
}

describe('microstripDispersionKirschningJansen', () => {
  it('has the check values of an independent implementation of the same equations', () => {
    const actual = [permittivity(1, 4.2, 1), permittivity(1, 4.2, 5), permittivity(2, 9.8, 10)]
    expect(missedRows(checkValues('', actual, [3.04594304722, 3.08656841317, 7.82792730744]))).toBe('')
  })

  it('has the values of a second implementation where every term counts', () => {
    const actual = [permittivity(0.3, 4.2, 24), permittivity(0.15, 16, 25), permittivity(0.2, 2.2, 20)]
    expect(missedRows(checkValues('', actual, [3.1133679907, 11.8889686931, 1.73190572737]))).toBe('')
  })

  it('rises from the static value to that of the substrate', () => {
    expect(permittivity(1, 4.2, 1e-6)).toBeCloseTo(zeroThicknessPermittivity(1, 4.2), 8)
    expect(permittivity(1, 4.2, 1e6)).toBeCloseTo(4.2, 4)
  })

  it('depends on the product of frequency and height alone', () => {
    const thin = microstripDispersionKirschningJansen(
      { width: 1e-4, height: 1e-4, relativePermittivity: 4.2 },
      zeroThicknessPermittivity(1, 4.2),
      50e9,
    )
    expect(thin).toBeCloseTo(permittivity(1, 4.2, 5), 12)
  })

  it('states the range of the paper', () => {
    expect(LIMITS.map(({ quantity, min, max }) => [quantity, min, max])).toEqual([
      ['width/height', 0.1, 100],
      ['relative permittivity', 1, 20],
      ['height/wavelength', 0, 0.13],
    ])
  })

  it.each([0, -1, NaN])('refuses a frequency of %s GHz', (gigahertz) => {
    expect(() => permittivity(1, 4.2, gigahertz)).toThrow(RangeError)
  })
})
