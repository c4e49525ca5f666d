import { describe, expect, it } from 'vitest'
import { striplinePairSimpleLog } from '../../../src/impedance/closedForm/striplinePairSimpleLog.ts'
import { striplineSimpleLog } from '../../../src/impedance/closedForm/striplineSimpleLog.ts'
import { centredPair } from '../../helpers/pairShapes.ts'

describe('striplinePairSimpleLog', () => {
  it('has the check value of an independent implementation of the same equations', () => {
    expect(striplinePairSimpleLog(centredPair(100, 100, 235, 35, 4)) / 73.168672816).toBeCloseTo(1, 9)
  })

  it('is twice the single line when far apart', () => {
    const pair = centredPair(100, 1e5, 235, 35, 4)
    expect(striplinePairSimpleLog(pair) / striplineSimpleLog(pair)).toBeCloseTo(2, 12)
  })

  it('refuses a pair without gap', () => {
    expect(() => striplinePairSimpleLog(centredPair(100, 0, 235, 35, 4))).toThrow(RangeError)
  })
})
