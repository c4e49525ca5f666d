import { describe, expect, it } from 'vitest'
import { striplineExact } from '../../../src/impedance/closedForm/striplineExact.ts'
import { striplinePairExact } from '../../../src/impedance/closedForm/striplinePairExact.ts'
import {
  LIMITS,
  striplinePairWidened,
  thinWidth,
} from '../../../src/impedance/closedForm/striplinePairWidened.ts'
import { striplineWheeler } from '../../../src/impedance/closedForm/striplineWheeler.ts'
import { missedRows, within } from '../../helpers/compareTable.ts'
import { centredPair, checkValues } from '../../helpers/pairShapes.ts'

describe('striplinePairWidened', () => {
  it('has the check values of an independent implementation of the same equations', () => {
    const first = striplinePairWidened(centredPair(100, 100, 235, 35, 4))
    const second = striplinePairWidened(centredPair(75, 150, 418, 18, 3.5))
    const rows = [
      ...checkValues('100', [first.even, first.odd], [46.1514688629, 36.0494580871]),
      ...checkValues('75', [second.even, second.odd], [86.4265866812, 62.4820394126]),
    ]
    expect(missedRows(rows)).toBe('')
  })

  it('finds the thin strip that has the impedance of the thick one', () => {
    const line = centredPair(100, 1, 235, 35, 1)
    expect(striplineExact({ ...line, width: thinWidth(line) })).toBeCloseTo(striplineWheeler(line), 10)
  })

  it('finds it for strips from very narrow to very wide, thin or thick', () => {
    for (const width of [1, 10, 200, 2000])
      for (const thickness of [0, 0.01, 90]) {
        const line = centredPair(width, 1, 235, thickness, 1)
        expect(striplineExact({ ...line, width: thinWidth(line) }) / striplineWheeler(line)).toBeCloseTo(1, 9)
      }
  })

  it('is the exact pair without thickness, as nearly as Wheeler is the exact strip', () => {
    // 0.5 %: stated by Wheeler for w/(b − t) < 10; the pair follows the strip, since it is the exact one of another width.
    const rows = [20, 100, 500].flatMap((width) => {
      const pair = centredPair(width, 80, 250, 0, 4)
      const [ours, exact] = [striplinePairWidened(pair), striplinePairExact(pair)]
      return [
        within(0.005, `even ${width}`, ours.even, exact.even),
        within(0.005, `odd ${width}`, ours.odd, exact.odd),
      ]
    })
    expect(missedRows(rows)).toBe('')
  })

  it('states the box of its fit', () => {
    expect(LIMITS.map(({ quantity, min, max }) => [quantity, min, max])).toEqual([
      ['thickness/gap', 0, 1],
      ['thickness/width', 0, 1],
    ])
  })

  it('refuses a pair without gap', () => {
    expect(() => striplinePairWidened(centredPair(100, 0, 235, 35, 4))).toThrow(RangeError)
  })
})
