import { describe, expect, it } from 'vitest'
import { striplineExact } from '../../../src/impedance/closedForm/striplineExact.ts'
import {
  LIMITS,
  striplineWheeler,
  striplineWidening,
} from '../../../src/impedance/closedForm/striplineWheeler.ts'
import { missedRows, within } from '../../helpers/compareTable.ts'
import { centred, tenfold } from '../../helpers/lineShapes.ts'

describe('striplineWheeler', () => {
  // Independent implementation of the same equations.
  it('has the check values', () => {
    const checks = [
      [centred(100, 235, 35, 4), 41.5082242391],
      [centred(150, 300, 18, 3.5), 47.3637993897],
      [centred(50, 650, 50, 4.2), 77.0064100241],
    ] as const
    expect(
      missedRows(checks.map(([line, value]) => within(1e-9, String(value), striplineWheeler(line), value))),
    ).toBe('')
  })

  // Author's statement: 0.5 % for w/(b − t) < 10.
  it('stays within its stated 0.5 % of the exact solution without thickness', () => {
    const rows = [0.05, 0.1, 0.3, 0.5, 1, 2, 4, 9.9].map((width) => {
      const line = { width, spacing: 1, relativePermittivity: 1 }
      return within(0.005, `w/b ${width}`, striplineWheeler({ ...line, thickness: 0 }), striplineExact(line))
    })
    expect(missedRows(rows)).toBe('')
  })

  // D. M. Pozar, Microwave Engineering, example 3.5, from memory: εr 2.2, b 3.2 mm, 2.66 mm for 50 ohm, t 0.01 mm;
  // the design formula of the book is good to 1 %, the width to half its last digit.
  it('comes out at 50 ohm for a textbook design, to its 1 % and 0.2 %', () => {
    const line = { width: 2.66e-3, spacing: 3.2e-3, thickness: 0.01e-3, relativePermittivity: 2.2 }
    expect(Math.abs(striplineWheeler(line) / 50 - 1)).toBeLessThan(0.012)
    expect(Math.abs(striplineExact(line) / 50 - 1)).toBeLessThan(0.012)
  })

  it('joins the thick line to the thin one without a step', () => {
    expect(striplineWidening(centred(100, 235, 0, 4))).toBe(0)
    const thin = striplineWheeler(centred(100, 235, 0, 4))
    expect(striplineWheeler(centred(100, 235, 1e-7, 4)) / thin).toBeCloseTo(1, 7)
  })

  it('gives the width increment that its impedance is made of', () => {
    const line = centred(100, 235, 35, 4)
    const p = (235 - 35) / (100 + striplineWidening(line) / 1e-6)
    const q = (8 / Math.PI) * p
    const z = (376.730313668 / (8 * Math.PI)) * Math.log(1 + (q / 2) * (q + Math.sqrt(q * q + 6.27)))
    expect(striplineWheeler(line)).toBeCloseTo(z, 9)
  })

  it('knows no scale and states its range', () => {
    const line = centred(100, 235, 35, 4)
    expect(striplineWheeler(tenfold(line))).toBeCloseTo(striplineWheeler(line), 11)
    expect(LIMITS).toEqual([{ quantity: 'width/(spacing - thickness)', min: 0, max: 10 }])
  })

  it.each([
    ['no width', centred(0, 235, 35, 4)],
    ['copper as thick as the spacing', centred(100, 35, 35, 4)],
    ['a negative thickness', centred(100, 235, -1, 4)],
    ['a permittivity below 1', centred(100, 235, 35, 0.5)],
    ['NaN', centred(100, NaN, 35, 4)],
  ])('refuses %s', (_what, line) => {
    expect(() => striplineWheeler(line)).toThrow(RangeError)
  })
})
