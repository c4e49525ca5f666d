import { describe, expect, it } from 'vitest'
import { microstripHammerstadJensen } from '../../../src/impedance/closedForm/microstripHammerstadJensen.ts'
import {
  LIMITS,
  microstripSvacina,
  svacinaPermittivity,
} from '../../../src/impedance/closedForm/microstripSvacina.ts'
import { microstrip } from '../../helpers/lineShapes.ts'

describe('microstripSvacina', () => {
  // Independent implementation of the same equations.
  it('has the check value of the wide form', () => {
    expect(svacinaPermittivity(2, 0.2, 4.2, 3.5) / 3.35322542811).toBeCloseTo(1, 9)
  })

  // qa and qb of the independent implementation: 0.703142051172 and 0.107187098097, put into the filling law for
  // other materials than those of the check value.
  it('combines its filling shares for any two materials', () => {
    const [qa, qb] = [0.703142051172, 0.107187098097]
    const expected = 10 * qa + (6 * (1 - qa) ** 2) / (6 * (1 - qa - qb) + qb)
    expect(svacinaPermittivity(2, 0.2, 10, 6) / expected).toBeCloseTo(1, 9)
  })

  it('tends to the substrate as the strip widens, and rises with the cover', () => {
    expect(svacinaPermittivity(1e5, 0.2, 4.2, 3.5)).toBeCloseTo(4.2, 3)
    expect(svacinaPermittivity(2, 0.3, 4.2, 3.5)).toBeGreaterThan(svacinaPermittivity(2, 0.2, 4.2, 3.5))
  })

  it('does not return to the bare line as the cover vanishes, a known defect of the form', () => {
    const bare = microstripHammerstadJensen(microstrip(200, 100, 0, 4.2)).effectivePermittivity
    const uncovered = svacinaPermittivity(2, 1e-9, 4.2, 3.5)
    expect(uncovered / bare - 1).toBeGreaterThan(0.005)
    expect(uncovered / bare - 1).toBeLessThan(0.06)
  })

  it('leaves the air line of Hammerstad and Jensen as it is', () => {
    const line = { ...microstrip(200, 100, 20, 4.2), coverThickness: 20e-6, coverPermittivity: 3.5 }
    const bare = microstripHammerstadJensen(line)
    const { impedance, effectivePermittivity } = microstripSvacina(line)
    expect(impedance * Math.sqrt(effectivePermittivity)).toBeCloseTo(
      bare.impedance * Math.sqrt(bare.effectivePermittivity),
      10,
    )
  })

  it('is for wide strips of zero thickness, and refuses a cover below air', () => {
    expect(LIMITS[0]).toEqual({ quantity: 'width/height', min: 1, max: 100 })
    const line = { ...microstrip(200, 100, 20, 4.2), coverThickness: 20e-6, coverPermittivity: 0.5 }
    expect(() => microstripSvacina(line)).toThrow(RangeError)
  })
})
