import { describe, expect, it } from 'vitest'
import { microstripPairKirschningJansen } from '../../../src/impedance/closedForm/microstripPairKirschningJansen.ts'
import {
  jansenWidths,
  LIMITS,
  microstripPairThicknessJansen,
} from '../../../src/impedance/closedForm/microstripPairThicknessJansen.ts'
import { missedRows } from '../../helpers/compareTable.ts'
import { checkValues, fourConstants, microstripPair } from '../../helpers/pairShapes.ts'

describe('microstripPairThicknessJansen', () => {
  it('has the check values of an independent implementation of the same equations', () => {
    const pair = microstripPair(100, 100, 100, 18, 4)
    const widths = jansenWidths(pair)
    const rows = [
      ...checkValues('widths', [widths.even, widths.odd], [113.397066905e-6, 122.397066905e-6]),
      ...checkValues(
        'modes',
        fourConstants(microstripPairThicknessJansen(pair)),
        [79.1230785759, 57.3383028953, 3.13239847582, 2.69661411949],
      ),
    ]
    expect(missedRows(rows)).toBe('')
  })

  it('is the thin pair without thickness', () => {
    const thin = microstripPair(100, 100, 100, 0, 4)
    expect(microstripPairThicknessJansen(thin)).toEqual(microstripPairKirschningJansen(thin))
    const hardly = microstripPairThicknessJansen({ ...thin, thickness: 1e-15 })
    expect(hardly.odd.impedance).toBeCloseTo(microstripPairThicknessJansen(thin).odd.impedance, 6)
  })

  it('widens the odd mode by twice the plate width of the facing side walls, brought to the plane', () => {
    // A plate t by s in air has as much capacitance as the width t h/(s εr) over the substrate; two of them.
    const pair = microstripPair(100, 75, 120, 20, 3.7)
    const { even, odd } = jansenWidths(pair)
    expect((odd - even) / ((2 * 20e-6 * 120) / (75 * 3.7))).toBeCloseTo(1, 12)
  })

  it('states where it was found to hold', () => {
    expect(LIMITS.map(({ quantity, min, max }) => [quantity, min, max])).toEqual([
      ['width/height', 0.1, 10],
      ['gap/height', 0.1, 10],
      ['relative permittivity', 1, 18],
      ['thickness/gap', 0, 0.5],
    ])
  })

  it('refuses a pair without gap', () => {
    expect(() => microstripPairThicknessJansen(microstripPair(100, 0, 100, 18, 4))).toThrow(RangeError)
  })
})
