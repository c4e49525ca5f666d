import { describe, expect, it } from 'vitest'
import { sheetPermittivity } from '../../../src/impedance/closedForm/sheetPermittivity.ts'
import { permittivityAt } from '../../../src/impedance/closedForm/widebandPermittivity.ts'
import { sheetStack } from '../../../src/impedance/formulas/sheetStack.ts'
import type { DielectricSheet } from '../../../src/section/crossSection.ts'

const sheet = (thickness: number, relative: number, lossTangent = 0): DielectricSheet => ({
  name: 'sheet',
  thickness,
  permittivity: { relative, lossTangent, frequency: 1e9, tolerance: 0 },
})

describe('sheetStack', () => {
  it('adds thicknesses and weighs permittivities, nearest sheet first', () => {
    const stack = sheetStack([sheet(3e-5, 4.2), sheet(7e-5, 3.4)], 8e-5, 1e9)
    expect(stack.thickness).toBeCloseTo(1e-4, 15)
    const weighed = sheetPermittivity(
      [
        { thickness: 3e-5, relativePermittivity: 4.2 },
        { thickness: 7e-5, relativePermittivity: 3.4 },
      ],
      8e-5,
    )
    expect(stack.relativePermittivity).toBeCloseTo(weighed, 12)
  })

  it('takes the permittivity at the frequency asked for', () => {
    const lossy = sheet(1e-4, 4.2, 0.02)
    const { relative } = permittivityAt(lossy.permittivity, 1e10)
    expect(sheetStack([lossy], 8e-5, 1e10).relativePermittivity).toBeCloseTo(relative, 12)
    expect(relative).toBeLessThan(4.2)
  })

  it('refuses to stand for nothing', () => {
    expect(() => sheetStack([], 8e-5, 1e9)).toThrow(RangeError)
  })
})
