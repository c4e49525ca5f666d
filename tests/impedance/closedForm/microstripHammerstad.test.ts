import { describe, expect, it } from 'vitest'
import { LIMITS, microstripHammerstad } from '../../../src/impedance/closedForm/microstripHammerstad.ts'
import { missedRows, within } from '../../helpers/compareTable.ts'
import { microstrip, tenfold } from '../../helpers/lineShapes.ts'

describe('microstripHammerstad', () => {
  // Independent implementation of the same equations; those without thickness with the textbook's 120π for η0.
  it('has the check values without and with thickness, narrow and wide', () => {
    const checks = [
      [microstrip(50, 100, 0, 4.2), (97.6253386197 * 376.730313668) / (120 * Math.PI), 2.92],
      [microstrip(200, 100, 0, 4.2), (49.9280907511 * 376.730313668) / (120 * Math.PI), 3.20474315681],
      [microstrip(100, 100, 35, 4), 66.3385502372, 2.6877642776],
      [microstrip(150, 75, 18, 3.5), 50.8170365372, 2.63022427198],
    ] as const
    const rows = checks.flatMap(([line, impedance, permittivity]) => {
      const actual = microstripHammerstad(line)
      return [
        within(1e-9, `impedance ${impedance}`, actual.impedance, impedance),
        within(1e-9, `permittivity ${permittivity}`, actual.effectivePermittivity, permittivity),
      ]
    })
    expect(missedRows(rows)).toBe('')
  })

  // D. M. Pozar, Microwave Engineering, examples of section 3.8, from memory. Half the last digit of the width asked
  // for is 0.1 % of the impedance; of the permittivities half the last digit.
  it('reproduces the worked microstrip designs of a textbook', () => {
    const alumina = microstripHammerstad(microstrip(483, 500, 0, 9.9))
    expect(Math.abs(alumina.effectivePermittivity - 6.665)).toBeLessThan(0.0005)
    expect(Math.abs(alumina.impedance - 50)).toBeLessThan(0.25)
    const laminate = microstripHammerstad(microstrip(3.081e3, 1e3, 0, 2.2))
    expect(Math.abs(laminate.effectivePermittivity - 1.87)).toBeLessThan(0.005)
    expect(Math.abs(laminate.impedance - 50)).toBeLessThan(0.5)
  })

  it('changes from one impedance formula to the other at w = h within its stated 1 %', () => {
    const below = microstripHammerstad(microstrip(100, 100.0001, 0, 4)).impedance
    const above = microstripHammerstad(microstrip(100, 99.9999, 0, 4)).impedance
    expect(Math.abs(below / above - 1)).toBeLessThan(0.01)
  })

  it('changes from one widening to the other at w = h/2π without a step', () => {
    const h = 100
    const w = h / (2 * Math.PI)
    const below = microstripHammerstad(microstrip(w * (1 - 1e-9), h, 5, 4)).impedance
    const above = microstripHammerstad(microstrip(w * (1 + 1e-9), h, 5, 4)).impedance
    expect(below / above).toBeCloseTo(1, 7)
  })

  // Widening by an independent evaluation on either side of w/h = 0.15915.
  it.each([
    [15.85, 4 * Math.PI * 15.85],
    [16, 200],
  ])('widens a strip %s wide on 100 by a reach of %s', (w, reach) => {
    const u = (w + ((1.25 * 5) / Math.PI) * (1 + Math.log(reach / 5))) / 100
    const { impedance, effectivePermittivity } = microstripHammerstad(microstrip(w, 100, 5, 4))
    const air = impedance * Math.sqrt(effectivePermittivity)
    expect(air / ((376.730313668 / (2 * Math.PI)) * Math.log(8 / u + u / 4))).toBeCloseTo(1, 10)
  })

  // The narrow widening by an independent evaluation: u = 0.1 + 1.25 · 0.02/π · [1 + ln(4π · 5)].
  it('widens a strip narrower than h/2π by its own width', () => {
    const u = 0.1 + ((1.25 * 0.02) / Math.PI) * (1 + Math.log(20 * Math.PI))
    const { impedance, effectivePermittivity } = microstripHammerstad(microstrip(10, 100, 2, 4))
    expect(impedance * Math.sqrt(effectivePermittivity)).toBeCloseTo(59.9584916 * Math.log(8 / u + u / 4), 6)
  })

  it('refuses copper so thick that its correction would take the permittivity below 1', () => {
    expect(() => microstripHammerstad(microstrip(50, 100, 300, 10))).toThrow(/no answer for a strip/)
    // At w = h and εr = 2 the permittivity is 3/2 + 1/(2√13) − t/(4.6 h): 1.005 at this thickness.
    const thick = 460 * (1.5 + 0.5 / Math.sqrt(13) - 1.005)
    expect(microstripHammerstad(microstrip(100, 100, thick, 2)).effectivePermittivity).toBeCloseTo(1.005, 9)
  })

  it('knows no scale, refuses a line without height, and states its range', () => {
    const line = microstrip(100, 80, 10, 4.1)
    expect(microstripHammerstad(tenfold(line)).impedance).toBeCloseTo(
      microstripHammerstad(line).impedance,
      11,
    )
    expect(() => microstripHammerstad(microstrip(100, 0, 10, 4))).toThrow(RangeError)
    expect(LIMITS.find((limit) => limit.quantity === 'thickness/height')).toEqual({
      quantity: 'thickness/height',
      min: 0,
      max: 0.2,
    })
  })
})
