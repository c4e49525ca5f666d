import { describe, expect, it } from 'vitest'
import {
  halfLines,
  LIMITS,
  offsetParallelHalves,
} from '../../../src/impedance/closedForm/offsetParallelHalves.ts'
import { striplineWheeler } from '../../../src/impedance/closedForm/striplineWheeler.ts'
import { missedRows, within } from '../../helpers/compareTable.ts'
import { centred, offset, tenfold } from '../../helpers/lineShapes.ts'

describe('offsetParallelHalves', () => {
  // Independent implementation of the same equations.
  it('has the check values', () => {
    expect(
      missedRows([
        within(1e-9, 'ratio 2', offsetParallelHalves(offset(100, 35, 100, 200, 4)), 48.8105445657),
        within(1e-9, 'ratio 4', offsetParallelHalves(offset(75, 18, 75, 300, 3.5)), 60.3886638965),
      ]),
    ).toBe('')
  })

  it('is the centred line midway, and the same turned upside down', () => {
    expect(offsetParallelHalves(offset(100, 35, 100, 100, 4))).toBeCloseTo(
      striplineWheeler(centred(100, 235, 35, 4)),
      11,
    )
    expect(offsetParallelHalves(offset(100, 35, 200, 100, 4))).toBeCloseTo(
      offsetParallelHalves(offset(100, 35, 100, 200, 4)),
      11,
    )
  })

  it('takes each half from a centred line with its own distance', () => {
    const { lower, upper } = halfLines(offset(100, 35, 100, 200, 4))
    expect(lower).toBeCloseTo(striplineWheeler(centred(100, 235, 35, 4)), 11)
    expect(upper).toBeCloseTo(striplineWheeler(centred(100, 435, 35, 4)), 11)
  })

  it('knows no scale, refuses a strip on its plane, and is meant for the middle', () => {
    const line = offset(100, 35, 100, 200, 4)
    expect(offsetParallelHalves(tenfold(line))).toBeCloseTo(offsetParallelHalves(line), 11)
    expect(() => offsetParallelHalves(offset(100, 35, 0, 200, 4))).toThrow(RangeError)
    expect(LIMITS).toEqual([{ quantity: 'distance ratio', min: 1, max: 2 }])
  })
})
