import { describe, expect, it } from 'vitest'
import { microstripHammerstadJensen } from '../../../src/impedance/closedForm/microstripHammerstadJensen.ts'
import { LIMITS, microstripWheeler } from '../../../src/impedance/closedForm/microstripWheeler.ts'
import { missedRows, within } from '../../helpers/compareTable.ts'
import { microstrip, tenfold } from '../../helpers/lineShapes.ts'

const three = [microstrip(100, 100, 35, 4), microstrip(150, 75, 18, 3.5), microstrip(75, 250, 50, 4.5)]

describe('microstripWheeler', () => {
  // Independent implementation of the same equations.
  it('has the check values', () => {
    const values = [66.5160136966, 50.826139192, 98.3490314444]
    const rows = three.map((line, index) =>
      within(1e-9, `line ${index}`, microstripWheeler(line).impedance, values[index] ?? NaN),
    )
    expect(missedRows(rows)).toBe('')
  })

  // Author's statement: 2 % for every width. Hammerstad and Jensen at zero thickness: 0.2 %.
  it('stays within the stated 2 % of a better formula for strips of every width', () => {
    const rows = [0.05, 0.1, 0.3, 1, 3, 10, 30, 100].flatMap((u) =>
      [1, 2.5, 4, 10].map((er) => {
        const line = microstrip(100 * u, 100, 0, er)
        return within(
          0.022,
          `w/h ${u}, permittivity ${er}`,
          microstripWheeler(line).impedance,
          microstripHammerstadJensen(line).impedance,
        )
      }),
    )
    expect(missedRows(rows)).toBe('')
  })

  it('has an effective permittivity of 1 in air, and one between air and substrate on a substrate', () => {
    expect(microstripWheeler(microstrip(100, 100, 35, 1)).effectivePermittivity).toBe(1)
    const { effectivePermittivity } = microstripWheeler(microstrip(100, 100, 35, 4))
    expect(effectivePermittivity).toBeGreaterThan(2.5)
    expect(effectivePermittivity).toBeLessThan(4)
  })

  it('joins the thick line to the thin one without a step, and knows no scale', () => {
    const thin = microstripWheeler(microstrip(100, 100, 0, 4)).impedance
    expect(microstripWheeler(microstrip(100, 100, 1e-7, 4)).impedance / thin).toBeCloseTo(1, 7)
    const line = microstrip(100, 80, 20, 4.1)
    expect(microstripWheeler(tenfold(line)).impedance).toBeCloseTo(microstripWheeler(line).impedance, 11)
  })

  it('refuses a line without width, and bounds the permittivity alone', () => {
    expect(() => microstripWheeler(microstrip(0, 100, 35, 4))).toThrow(RangeError)
    expect(LIMITS).toEqual([{ quantity: 'relative permittivity', min: 1, max: 128 }])
  })
})
