import { describe, expect, it } from 'vitest'
import { offsetWireLimit } from '../../../src/impedance/closedForm/offsetWireLimit.ts'
import { striplineExact } from '../../../src/impedance/closedForm/striplineExact.ts'
import { missedRows, within } from '../../helpers/compareTable.ts'

const wire = { diameter: 0.05, height: 0.25, spacing: 1, relativePermittivity: 1 }

describe('offsetWireLimit', () => {
  // Independent implementation of the same equations.
  it('has the check value', () => {
    expect(missedRows([within(1e-9, 'impedance', offsetWireLimit(wire), 173.32340022)])).toBe('')
  })

  it('agrees midway with the exact thin strip twice as wide as the wire is thick', () => {
    const thin = { ...wire, diameter: 1e-6, height: 0.5 }
    const strip = striplineExact({ width: 2e-6, spacing: 1, relativePermittivity: 1 })
    expect(offsetWireLimit(thin) / strip).toBeCloseTo(1, 11)
  })

  // A wire over one plane: η0/2π · ln(4y/d), the other plane far away.
  it('tends to a wire over one plane when the other is far', () => {
    const { impedance } = { impedance: offsetWireLimit({ ...wire, spacing: 1e5 }) }
    expect(impedance).toBeCloseTo(59.9584916 * Math.log((4 * 0.25) / 0.05), 4)
  })

  it('is the same seen from either plane, and scales with permittivity', () => {
    expect(offsetWireLimit({ ...wire, height: 0.75 })).toBeCloseTo(offsetWireLimit(wire), 11)
    expect(offsetWireLimit({ ...wire, relativePermittivity: 4 })).toBeCloseTo(offsetWireLimit(wire) / 2, 11)
  })

  // 4b/(πd) = 1.005 midway.
  it('answers down to the zero of its logarithm', () => {
    const thick = { ...wire, diameter: 4 / (1.005 * Math.PI), height: 0.5 }
    expect(offsetWireLimit(thick)).toBeCloseTo(59.9584916 * Math.log(1.005), 6)
  })

  it('refuses a wire outside its planes, or too thick for the logarithm', () => {
    expect(() => offsetWireLimit({ ...wire, height: 1 })).toThrow(RangeError)
    expect(() => offsetWireLimit({ ...wire, diameter: 2 })).toThrow(RangeError)
  })
})
