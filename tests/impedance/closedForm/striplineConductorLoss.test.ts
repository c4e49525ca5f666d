import { describe, expect, it } from 'vitest'
import { striplineConductorLoss } from '../../../src/impedance/closedForm/striplineConductorLoss.ts'
import { surfaceResistance } from '../../../src/impedance/closedForm/skinEffect.ts'
import { striplineWheeler } from '../../../src/impedance/closedForm/striplineWheeler.ts'
import { missedRows } from '../../helpers/compareTable.ts'
import { centred } from '../../helpers/lineShapes.ts'
import { checkValues } from '../../helpers/pairShapes.ts'
import { readReferenceTables, rowsOf } from '../../helpers/referenceTable.ts'

const AT_10_GHZ = surfaceResistance(1.72e-8, 10e9)

function loss(line: ReturnType<typeof centred>, rs: number): number {
  return striplineConductorLoss({ ...line, impedance: striplineWheeler(line), surfaceResistance: rs })
}

/** By how much the formula exceeds each line of the numerical solution, and which branch it takes for it. */
function againstSolution(): { readonly narrow: boolean; readonly excess: number }[] {
  return rowsOf(readReferenceTables('conductorLossReference.json'), 'stripline').map((row) => {
    const { width = NaN, spacing = NaN, thickness = NaN, permittivity = NaN, conductorLoss = NaN } = row
    const line = { width, spacing, thickness, relativePermittivity: permittivity }
    return {
      narrow: Math.sqrt(permittivity) * striplineWheeler(line) >= 120,
      excess: loss(line, AT_10_GHZ) / conductorLoss - 1,
    }
  })
}

describe('striplineConductorLoss', () => {
  it('has the check values of an independent implementation of the same equations', () => {
    const rows = checkValues(
      '',
      [
        loss(centred(100, 235, 35, 4), surfaceResistance(1.7241e-8, 10e9)),
        loss(centred(2660, 3200, 10, 2.2), surfaceResistance(1 / 5.813e7, 10e9)),
      ],
      [1.91282755731, 0.120509198934],
    )
    expect(missedRows(rows)).toBe('')
  })

  it('reproduces the handbook example', () => {
    // Pozar, "Microwave Engineering", example 3.5: b 3.2 mm, w 2.66 mm, t 0.01 mm, εr 2.20, 10 GHz, copper: 0.122 Np/m (from
    // memory). The example designs the line for 50 ohm and puts that into the loss, so it is put in here: a definition of the
    // source. With the impedance that Wheeler's form gives the strip, 49.41 ohm, the same equation gives 0.1205.
    const example = { ...centred(2660, 3200, 10, 2.2), impedance: 50 }
    const rs = surfaceResistance(1 / 5.813e7, 10e9)
    expect(Math.abs(striplineConductorLoss({ ...example, surfaceResistance: rs }) - 0.122)).toBeLessThan(
      0.0005,
    )
  })

  it('has the table of an independent implementation of the same equations, in dB/m', () => {
    // Printed to 0.001 dB/m; 10 GHz, 1.72e-8 ohm m.
    const rows = (
      [
        [100, 235, 35, 4, 16.595],
        [150, 300, 18, 3.5, 12.623],
        [75, 150, 12, 4, 26.363],
        [100, 600, 35, 4, 9.478],
      ] as const
    ).map(([width, spacing, thickness, permittivity, expected]) => ({
      label: `${width}`,
      actual: (loss(centred(width, spacing, thickness, permittivity), AT_10_GHZ) * 20) / Math.LN10,
      expected,
      tolerance: 0.0005,
    }))
    expect(missedRows(rows)).toBe('')
  })

  it('agrees with a boundary-element solution in its wide branch', () => {
    // 0 to +1.1 %: found of the equations over the fine lines of that solution.
    const rows = againstSolution().filter(({ narrow }) => !narrow)
    expect(rows.length).toBe(3)
    expect(rows.filter(({ excess }) => !(excess > 0 && excess < 0.011))).toEqual([])
  })

  it('is 5 % above a boundary-element solution in its narrow branch: a conflict, not tuned to', () => {
    // 100 um between planes 600 um apart: the published equation gives 9.478 dB/m, the solution 9.013 dB/m. That the
    // equation is meant so, the table of the independent implementation shows.
    const [row, ...others] = againstSolution().filter(({ narrow }) => narrow)
    expect(others).toEqual([])
    expect(Math.abs((row?.excess ?? NaN) - (9.478 / 9.013 - 1))).toBeLessThan(0.0001)
  })

  it('gives a second implementation of its narrow branch', () => {
    // Typed anew from the equation: b 600, w 100, t 35, εr 4, Rs 0.0260892199561, Z 68.6.
    const [b, w, t, z, rs] = [600e-6, 100e-6, 35e-6, 68.6, 0.0260892199561]
    const B =
      1 + (b / (w / 2 + 0.7 * t)) * (1 / 2 + 0.414 * (t / w) + Math.log(4 * Math.PI * (w / t)) / 2 / Math.PI)
    const line = { ...centred(100, 600, 35, 4), impedance: z, surfaceResistance: rs }
    expect(striplineConductorLoss(line) / ((0.16 * rs * B) / z / b)).toBeCloseTo(1, 12)
  })

  it('steps up by 10 % from the wide to the narrow branch, a step of the original', () => {
    // A trait of the equations, no source; half the last digit of the 10 % that the formula says of itself.
    const rs = 0.026
    for (const [spacing, thickness] of [
      [300, 18],
      [400, 18],
      [600, 35],
    ] as const) {
      // The width whose √εr Z is 120 ohm, by bisection.
      let [low, high] = [1, 600]
      for (let step = 0; step < 60; step++) {
        const width = (low + high) / 2
        if (striplineWheeler(centred(width, spacing, thickness, 1)) > 120) low = width
        else high = width
      }
      const wide = loss(centred(high * (1 + 1e-9), spacing, thickness, 4), rs)
      const narrow = loss(centred(high * (1 - 1e-9), spacing, thickness, 4), rs)
      expect(Math.abs(narrow / wide - 1.1)).toBeLessThan(0.005)
    }
  })

  it('changes branch at 120 ohm and takes a line in air', () => {
    const line = { ...centred(100, 600, 35, 1), surfaceResistance: 0.026 }
    const [wide, narrow] = [119.6, 120.4].map((impedance) => striplineConductorLoss({ ...line, impedance }))
    // The wide branch rises with the impedance, the narrow one falls: both from the same forms at other impedances.
    const wideForm = striplineConductorLoss({ ...line, impedance: 60 }) * (119.6 / 60)
    const narrowForm = striplineConductorLoss({ ...line, impedance: 180 }) * (180 / 120.4)
    expect(wide).toBeCloseTo(wideForm, 9)
    expect(narrow).toBeCloseTo(narrowForm, 9)
  })

  it('refuses a strip without thickness or thicker than its space', () => {
    const line = { impedance: 50, surfaceResistance: 0.02 }
    expect(() => striplineConductorLoss({ ...centred(100, 235, 0, 4), ...line })).toThrow(/stripline loss/)
    expect(() => striplineConductorLoss({ ...centred(100, 20, 35, 4), ...line })).toThrow(/stripline loss/)
  })
})
