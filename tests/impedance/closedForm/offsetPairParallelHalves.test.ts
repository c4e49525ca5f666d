import { describe, expect, it } from 'vitest'
import {
  halfPairs,
  offsetPairParallelHalves,
} from '../../../src/impedance/closedForm/offsetPairParallelHalves.ts'
import { striplinePairWidened } from '../../../src/impedance/closedForm/striplinePairWidened.ts'
import { missedRows } from '../../helpers/compareTable.ts'
import { centredPair, checkValues, offsetPair } from '../../helpers/pairShapes.ts'

describe('offsetPairParallelHalves', () => {
  it('has the check values of an independent implementation of the same equations', () => {
    const first = offsetPairParallelHalves(offsetPair(100, 100, 18, 100, 200, 4))
    const second = offsetPairParallelHalves(offsetPair(75, 150, 35, 75, 300, 3.5))
    const rows = [
      ...checkValues('100', [first.even, first.odd], [58.8099477669, 43.6888303822]),
      ...checkValues('75', [second.even, second.odd], [59.6906044526, 48.7598036023]),
    ]
    expect(missedRows(rows)).toBe('')
  })

  it('is the centred pair when centred', () => {
    const { even, odd } = offsetPairParallelHalves(offsetPair(100, 100, 35, 100, 100, 4))
    const centred = striplinePairWidened(centredPair(100, 100, 235, 35, 4))
    expect(even).toBeCloseTo(centred.even, 10)
    expect(odd).toBeCloseTo(centred.odd, 10)
  })

  it('takes each half from the pair whose planes are as far as that side’s', () => {
    const { lower, upper } = halfPairs(offsetPair(100, 100, 35, 80, 150, 4))
    expect(lower.odd).toBeCloseTo(striplinePairWidened(centredPair(100, 100, 195, 35, 4)).odd, 10)
    expect(upper.odd).toBeCloseTo(striplinePairWidened(centredPair(100, 100, 335, 35, 4)).odd, 10)
  })

  it('refuses a pair without gap or plane', () => {
    expect(() => offsetPairParallelHalves(offsetPair(100, 0, 35, 100, 200, 4))).toThrow(RangeError)
    expect(() => offsetPairParallelHalves(offsetPair(100, 100, 35, 0, 200, 4))).toThrow(RangeError)
  })
})
