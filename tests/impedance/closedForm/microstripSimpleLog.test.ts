import { describe, expect, it } from 'vitest'
import { LIMITS, microstripSimpleLog } from '../../../src/impedance/closedForm/microstripSimpleLog.ts'
import { missedRows, within } from '../../helpers/compareTable.ts'
import { microstrip, tenfold } from '../../helpers/lineShapes.ts'

describe('microstripSimpleLog', () => {
  // Independent implementation of the same equations.
  it('has the check values', () => {
    const checks = [
      [microstrip(100, 100, 35, 4), 61.6667923997],
      [microstrip(150, 75, 18, 3.5), 46.277001162],
      [microstrip(75, 250, 50, 4.5), 93.3826849454],
    ] as const
    const rows = checks.map(([line, value]) =>
      within(1e-9, String(value), microstripSimpleLog(line).impedance, value),
    )
    expect(missedRows(rows)).toBe('')
  })

  // 60/√(0.475 εr + 0.67) is what the source writes as 87/√(εr + 1.41): 60/√0.475 = 87.06, 0.67/0.475 = 1.411.
  it('has the effective permittivity that its impedance implies, to 0.1 %', () => {
    const rows = [1, 2.2, 4, 10, 15].map((er) => {
      const line = microstripSimpleLog(microstrip(100, 100, 35, er))
      const air = 60 * Math.log(5.98 / 1.15)
      return within(0.002, `permittivity ${er}`, line.effectivePermittivity, (air / line.impedance) ** 2)
    })
    expect(missedRows(rows)).toBe('')
  })

  it('knows no scale, and refuses strips past the zero of its logarithm', () => {
    const line = microstrip(100, 80, 20, 4.1)
    expect(microstripSimpleLog(tenfold(line)).impedance).toBeCloseTo(microstripSimpleLog(line).impedance, 11)
    expect(() => microstripSimpleLog(microstrip(800, 100, 35, 4))).toThrow(/0.8 w \+ t < 5.98 h/)
  })

  // 5.98 h/(0.8 w + t) = 1.005.
  it('answers down to the zero of its logarithm', () => {
    const { impedance } = microstripSimpleLog(microstrip((598 / 1.005 - 35) / 0.8, 100, 35, 4))
    expect(impedance).toBeCloseTo((87 / Math.sqrt(5.41)) * Math.log(1.005), 9)
  })

  it('states the quoted range', () => {
    expect(LIMITS.map(({ quantity }) => quantity)).toEqual(['width/height', 'relative permittivity'])
  })
})
