import { describe, expect, it } from 'vitest'
import { microstripPairSimpleLog } from '../../../src/impedance/closedForm/microstripPairSimpleLog.ts'
import { microstripSimpleLog } from '../../../src/impedance/closedForm/microstripSimpleLog.ts'
import { microstripPair } from '../../helpers/pairShapes.ts'

describe('microstripPairSimpleLog', () => {
  it('has the check value of an independent implementation of the same equations', () => {
    expect(microstripPairSimpleLog(microstripPair(100, 100, 100, 35, 4)) / 100.666279733).toBeCloseTo(1, 9)
  })

  it('is twice the single line when far apart, and 0.52 of that at contact', () => {
    const single = microstripSimpleLog(microstripPair(100, 1, 100, 35, 4)).impedance
    expect(microstripPairSimpleLog(microstripPair(100, 1e5, 100, 35, 4)) / single).toBeCloseTo(2, 12)
    expect(microstripPairSimpleLog(microstripPair(100, 1e-9, 100, 35, 4)) / single).toBeCloseTo(1.04, 9)
  })

  it('refuses a pair without gap', () => {
    expect(() => microstripPairSimpleLog(microstripPair(100, 0, 100, 35, 4))).toThrow(RangeError)
  })
})
