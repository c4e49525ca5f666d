import { describe, expect, it } from 'vitest'
import { LIMITS, microstripCoatFilling } from '../../../src/impedance/closedForm/microstripCoatFilling.ts'
import { microstripHammerstadJensen } from '../../../src/impedance/closedForm/microstripHammerstadJensen.ts'
import { missedRows, within } from '../../helpers/compareTable.ts'
import { microstrip, tenfold } from '../../helpers/lineShapes.ts'
import { readReferenceTables, rowsOf } from '../../helpers/referenceTable.ts'

const coated = { ...microstrip(100, 100, 35, 4), coverThickness: 20e-6, coverPermittivity: 3.5 }

describe('microstripCoatFilling', () => {
  // Independent implementation of the same equations.
  it('has the check values', () => {
    const thin = { ...microstrip(75, 150, 50, 3.2), coverThickness: 10e-6, coverPermittivity: 3.5 }
    const [first, second] = [coated, thin].map(microstripCoatFilling)
    expect(
      missedRows([
        within(1e-9, 'impedance, 20 um', first?.impedance ?? NaN, 61.9606727869),
        within(1e-9, 'permittivity, 20 um', first?.effectivePermittivity ?? NaN, 3.05850408066),
        within(1e-9, 'impedance, 10 um', second?.impedance ?? NaN, 87.7846683987),
        within(1e-9, 'permittivity, 10 um', second?.effectivePermittivity ?? NaN, 2.36194230074),
      ]),
    ).toBe('')
  })

  it('agrees with a boundary-element solution as closely as its binding claims in the box of the fit', () => {
    const rows = rowsOf(readReferenceTables('lineReferenceValues.json'), 'coated').map((row) => {
      const {
        width = NaN,
        height = NaN,
        thickness = NaN,
        permittivity = NaN,
        coat = NaN,
        permittivityCoat = NaN,
      } = row
      const line = microstripCoatFilling({
        width,
        height,
        thickness,
        relativePermittivity: permittivity,
        coverThickness: coat,
        coverPermittivity: permittivityCoat,
      })
      return within(0.012, `w ${width}, coat ${coat}`, line.impedance, row['impedance'] ?? NaN)
    })
    expect(missedRows(rows)).toBe('')
  })

  it('tends to the bare line as the coat vanishes', () => {
    const bare = microstripHammerstadJensen(coated)
    const none = microstripCoatFilling({ ...coated, coverThickness: 0 })
    expect(none.impedance).toBeCloseTo(bare.impedance, 11)
    expect(none.effectivePermittivity).toBeCloseTo(bare.effectivePermittivity, 11)
  })

  it('falls in impedance as the coat grows or rises in permittivity', () => {
    const { impedance } = microstripCoatFilling(coated)
    expect(microstripCoatFilling({ ...coated, coverThickness: 25e-6 }).impedance).toBeLessThan(impedance)
    expect(microstripCoatFilling({ ...coated, coverPermittivity: 4 }).impedance).toBeLessThan(impedance)
  })

  it('still answers for copper much thicker than the substrate, holding its last factor from t = 2 h on', () => {
    const filled = (thickness: number): number => {
      const line = { ...coated, thickness }
      const { effectivePermittivity: ee } = microstripHammerstadJensen(line)
      const unlimited = ee + ((4 - ee) / 3) * 2.5 // q εr + (1 − q) εc − ee = (1 − q)(εc − 1) with q = (ee − 1)/3
      return -Math.log(1 - (microstripCoatFilling(line).effectivePermittivity - ee) / (unlimited - ee))
    }
    expect(filled(300e-6)).toBeCloseTo(filled(200e-6), 9)
    expect(filled(198e-6)).toBeGreaterThan(filled(199e-6))
    expect(filled(199.9e-6)).toBeGreaterThan(filled(200e-6))
  })

  it('knows no scale and has a box of positive bounds', () => {
    expect(microstripCoatFilling(tenfold(coated)).impedance).toBeCloseTo(
      microstripCoatFilling(coated).impedance,
      11,
    )
    expect(LIMITS.every(({ min, max }) => min > 0 && max > min)).toBe(true)
  })

  it.each([
    ['a negative coat', { coverThickness: -1e-6 }],
    ['a coat below air', { coverPermittivity: 0.5 }],
    ['an endless coat', { coverThickness: Infinity }],
    ['a missing width', { width: NaN }],
  ])('refuses %s', (_what, change) => {
    expect(() => microstripCoatFilling({ ...coated, ...change })).toThrow(RangeError)
  })
})
