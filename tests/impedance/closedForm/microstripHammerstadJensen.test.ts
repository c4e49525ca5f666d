import { describe, expect, it } from 'vitest'
import {
  airImpedance,
  LIMITS,
  microstripHammerstadJensen,
  widening,
  zeroThicknessPermittivity,
} from '../../../src/impedance/closedForm/microstripHammerstadJensen.ts'
import { missedRows, within } from '../../helpers/compareTable.ts'
import { microstrip, tenfold } from '../../helpers/lineShapes.ts'
import { readReferenceTables, rowsOf } from '../../helpers/referenceTable.ts'

describe('microstripHammerstadJensen', () => {
  // Independent implementation of the same equations.
  it('has the check values of the air line, the permittivity and the thick line', () => {
    const thick = [
      microstrip(100, 100, 35, 4),
      microstrip(150, 75, 18, 3.5),
      microstrip(75, 250, 50, 4.5),
    ].map(microstripHammerstadJensen)
    const checks: (readonly [number | undefined, number])[] = [
      [airImpedance(0.5), 166.699798643],
      [airImpedance(1), 126.423865135],
      [airImpedance(2), 89.0289302112],
      [zeroThicknessPermittivity(0.5, 4.2), 2.93019887925],
      [zeroThicknessPermittivity(1, 4.2), 3.041250756],
      [zeroThicknessPermittivity(2, 3.5), 2.72756580046],
      [thick[0]?.impedance, 66.0136078146],
      [thick[0]?.effectivePermittivity, 2.69447635247],
      [thick[1]?.impedance, 50.7863743717],
      [thick[1]?.effectivePermittivity, 2.62447595856],
      [thick[2]?.impedance, 97.7870871871],
      [thick[2]?.effectivePermittivity, 2.74886037881],
    ]
    expect(
      missedRows(checks.map(([actual, value]) => within(1e-9, String(value), actual ?? NaN, value))),
    ).toBe('')
  })

  // accuracy found in the fine-line set: impedance 0.75 %, permittivity 1.1 %.
  it('agrees with a boundary-element solution as closely as its binding claims', () => {
    const rows = rowsOf(readReferenceTables('lineReferenceValues.json'), 'surface').flatMap((row) => {
      const { width = NaN, height = NaN, thickness = NaN, permittivity = NaN } = row
      const line = microstripHammerstadJensen({
        width,
        height,
        thickness,
        relativePermittivity: permittivity,
      })
      return [
        within(0.0075, `impedance at ${width}`, line.impedance, row['impedance'] ?? NaN),
        within(
          0.011,
          `permittivity at ${width}`,
          line.effectivePermittivity,
          row['effectivePermittivity'] ?? NaN,
        ),
      ]
    })
    expect(missedRows(rows)).toBe('')
  })

  it('tends to the thin wire 60 ln(8 h/w) over a plane as the strip narrows', () => {
    const u = 1e-6
    expect(airImpedance(u) / (59.9584916 * Math.log(8 / u))).toBeCloseTo(1, 2)
    expect(airImpedance(u) - airImpedance(2 * u)).toBeCloseTo(59.9584916 * Math.LN2, 4)
  })

  it('tends to a plate capacitor as the strip widens', () => {
    const { impedance, effectivePermittivity } = microstripHammerstadJensen(microstrip(1e7, 100, 0, 4))
    expect(effectivePermittivity).toBeCloseTo(4, 3)
    expect((impedance * 2 * 1e5) / 376.730313668).toBeCloseTo(1, 3)
  })

  it('joins the thick line to the thin one without a step, and needs no widening without thickness', () => {
    const thin = microstripHammerstadJensen(microstrip(100, 100, 0, 4))
    const hardly = microstripHammerstadJensen(microstrip(100, 100, 1e-9, 4))
    expect(widening(1, 0, 4)).toBe(0)
    expect(hardly.impedance / thin.impedance).toBeCloseTo(1, 9)
    expect(hardly.effectivePermittivity / thin.effectivePermittivity).toBeCloseTo(1, 9)
  })

  it('has permittivity 1 in air, whatever the thickness', () => {
    expect(microstripHammerstadJensen(microstrip(100, 100, 35, 1)).effectivePermittivity).toBe(1)
  })

  it('knows no scale', () => {
    const line = microstrip(100, 80, 20, 4.1)
    expect(microstripHammerstadJensen(tenfold(line)).impedance).toBeCloseTo(
      microstripHammerstadJensen(line).impedance,
      11,
    )
  })

  it('states the range of the paper', () => {
    expect(LIMITS).toEqual([
      { quantity: 'width/height', min: 0.01, max: 100 },
      { quantity: 'relative permittivity', min: 1, max: 128 },
    ])
  })

  it.each([
    ['no width', microstrip(0, 100, 35, 4)],
    ['no height', microstrip(100, 0, 35, 4)],
    ['negative thickness', microstrip(100, 100, -1, 4)],
    ['permittivity below 1', microstrip(100, 100, 35, 0.9)],
    ['NaN', microstrip(NaN, 100, 35, 4)],
    ['an endless width', microstrip(Infinity, 100, 35, 4)],
  ])('refuses %s', (_what, line) => {
    expect(() => microstripHammerstadJensen(line)).toThrow(RangeError)
  })
})
