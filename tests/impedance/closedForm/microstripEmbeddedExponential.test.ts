import { describe, expect, it } from 'vitest'
import {
  LIMITS,
  microstripEmbeddedExponential,
} from '../../../src/impedance/closedForm/microstripEmbeddedExponential.ts'
import { missedRows, within } from '../../helpers/compareTable.ts'
import { microstrip } from '../../helpers/lineShapes.ts'

const buried = { ...microstrip(100, 100, 18, 4.2), coverThickness: 100e-6, coverPermittivity: 4.2 }

describe('microstripEmbeddedExponential', () => {
  // Independent implementation of the same equations.
  it('has the check values', () => {
    const thin = microstripEmbeddedExponential({ ...buried, coverThickness: 20e-6 })
    const thick = microstripEmbeddedExponential(buried)
    expect(
      missedRows([
        within(1e-9, 'permittivity at H/h = 1.2', thin.effectivePermittivity, 3.54617495245),
        within(1e-9, 'permittivity at H/h = 2', thick.effectivePermittivity, 4.01079334995),
        within(1e-9, 'impedance at H/h = 2', thick.impedance, 57.2310706595),
      ]),
    ).toBe('')
  })

  it('tends to a homogeneous line under an endless cover', () => {
    expect(
      microstripEmbeddedExponential({ ...buried, coverThickness: 5e-3 }).effectivePermittivity,
    ).toBeCloseTo(4.2, 9)
  })

  it('is for one material, and refuses a negative cover', () => {
    expect(LIMITS.find(({ quantity }) => quantity === 'permittivity contrast')?.max).toBe(1.01)
    expect(() => microstripEmbeddedExponential({ ...buried, coverThickness: -1e-6 })).toThrow(RangeError)
  })
})
