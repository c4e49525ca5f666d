import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { microstripFlatCoverFilling } from '../../../src/impedance/closedForm/microstripFlatCoverFilling.ts'
import { microstripHammerstadJensen } from '../../../src/impedance/closedForm/microstripHammerstadJensen.ts'
import { missedRows, within } from '../../helpers/compareTable.ts'
import { microstrip } from '../../helpers/lineShapes.ts'
import { readReferenceTables, rowsOf } from '../../helpers/referenceTable.ts'

const line = microstrip(100, 100, 18, 4.2)
const under = (...covers: (readonly [number, number])[]): ReturnType<typeof microstripFlatCoverFilling> =>
  microstripFlatCoverFilling({
    ...line,
    covers: covers.map(([thickness, relativePermittivity]) => ({
      thickness: thickness / 1e6,
      relativePermittivity,
    })),
  })

describe('microstripFlatCoverFilling', () => {
  // Independent implementation of the same equations.
  it('has the check values under one sheet', () => {
    const first = under([100, 4.2])
    const second = microstripFlatCoverFilling({
      ...microstrip(150, 60, 35, 3.2),
      covers: [{ thickness: 25e-6, relativePermittivity: 3.2 }],
    })
    expect(
      missedRows([
        within(1e-9, 'impedance, 100 um', first.impedance, 58.1141764976),
        within(1e-9, 'permittivity, 100 um', first.effectivePermittivity, 3.88982310226),
        within(1e-9, 'impedance, 25 um', second.impedance, 40.8346989581),
        within(1e-9, 'permittivity, 25 um', second.effectivePermittivity, 2.85619525445),
      ]),
    ).toBe('')
  })

  it('agrees with a boundary-element solution as closely as its binding claims', () => {
    const rows = rowsOf(readReferenceTables('lineReferenceValues.json'), 'embedded').map((row) => {
      const { width = NaN, height = NaN, thickness = NaN, permittivity = NaN, cover = NaN } = row
      const covers = [{ thickness: cover, relativePermittivity: permittivity }]
      const { impedance } = microstripFlatCoverFilling({
        width,
        height,
        thickness,
        relativePermittivity: permittivity,
        covers,
      })
      return within(0.0095, `w ${width}, cover ${cover}`, impedance, row['impedance'] ?? NaN)
    })
    expect(missedRows(rows)).toBe('')
  })

  it('does not care how a sheet is divided, nor for sheets of air on top', () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 99, noNaN: true }), (cut) => {
        const whole = under([100, 3.8]).impedance
        expect(under([cut, 3.8], [100 - cut, 3.8]).impedance).toBeCloseTo(whole, 10)
      }),
      { seed: 17 },
    )
    expect(under([100, 3.8], [40, 1]).impedance).toBeCloseTo(under([100, 3.8]).impedance, 10)
  })

  it('gives a sheet its step of the filling: near sheets count for more than far ones', () => {
    const near = under([50, 4.4], [50, 3.2]).effectivePermittivity
    const far = under([50, 3.2], [50, 4.4]).effectivePermittivity
    expect(near).toBeGreaterThan(far)
    // x(c) = 1.36 ((c + 0.53 t)/h)^0.67 at w = h, evaluated here for 50 and 100 um.
    const [half, full] = [50, 100].map((c) => Math.exp(-1.36 * ((c + 0.53 * 18) / 100) ** 0.67)) as [
      number,
      number,
    ]
    const ee = microstripHammerstadJensen(line).effectivePermittivity
    const q = (ee - 1) / 3.2
    const step = (permittivity: number, share: number): number =>
      (q * 4.2 + (1 - q) * permittivity - ee) * share
    expect(near).toBeCloseTo(ee + step(4.4, 1 - half) + step(3.2, half - full), 11)
  })

  it('tends to a homogeneous line under an endless cover of its own material', () => {
    expect(under([1e6, 4.2]).effectivePermittivity).toBeCloseTo(4.2, 6)
  })

  it('refuses a line without cover, or with a cover of no thickness', () => {
    expect(() => microstripFlatCoverFilling({ ...line, covers: [] })).toThrow(RangeError)
    expect(() => under([0, 4])).toThrow(RangeError)
    expect(() => under([10, 0.5])).toThrow(RangeError)
  })
})
