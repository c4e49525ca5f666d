import { describe, expect, it } from 'vitest'
import { striplineExact } from '../../../src/impedance/closedForm/striplineExact.ts'
import { LIMITS, striplineSimpleLog } from '../../../src/impedance/closedForm/striplineSimpleLog.ts'
import { missedRows, within } from '../../helpers/compareTable.ts'
import { centred, tenfold } from '../../helpers/lineShapes.ts'

describe('striplineSimpleLog', () => {
  // Independent implementation of the same equations.
  it('has the check values', () => {
    const checks = [
      [centred(100, 235, 35, 4), 40.6952181586],
      [centred(150, 300, 18, 3.5), 45.4894458488],
    ] as const
    expect(
      missedRows(checks.map(([line, value]) => within(1e-9, String(value), striplineSimpleLog(line), value))),
    ).toBe('')
  })

  it('is within 5 % of the exact solution for thin strips inside its quoted range', () => {
    const rows = [0.02, 0.05, 0.1, 0.2, 0.35].map((ratio) => {
      const line = centred(100 * ratio, 100, 0, 4)
      return within(0.05, `w/b ${ratio}`, striplineSimpleLog(line), striplineExact(line))
    })
    expect(missedRows(rows)).toBe('')
  })

  // 1.9 b/(0.8 w + t) = 1.005.
  it('answers down to the zero of its logarithm', () => {
    const impedance = striplineSimpleLog(centred((190 / 1.005 - 10) / 0.8, 100, 10, 4))
    expect(impedance).toBeCloseTo(30 * Math.log(1.005), 9)
  })

  it('knows no scale, and refuses strips past the zero of its logarithm', () => {
    const line = centred(100, 235, 35, 4)
    expect(striplineSimpleLog(tenfold(line))).toBeCloseTo(striplineSimpleLog(line), 11)
    expect(() => striplineSimpleLog(centred(800, 235, 35, 4))).toThrow(/0.8 w \+ t < 1.9 b/)
    expect(LIMITS.map(({ max }) => max)).toEqual([0.35, 0.25])
  })
})
