import { describe, expect, it } from 'vitest'
import { offsetPlateLimit } from '../../../src/impedance/closedForm/offsetPlateLimit.ts'
import { striplineExact } from '../../../src/impedance/closedForm/striplineExact.ts'
import { offset, tenfold } from '../../helpers/lineShapes.ts'
import { missedRows, within } from '../../helpers/compareTable.ts'

describe('offsetPlateLimit', () => {
  // Independent implementation of the same equations.
  it('has the check value', () => {
    const line = { width: 4, thickness: 0, below: 0.1, above: 0.9, relativePermittivity: 1 }
    expect(missedRows([within(1e-9, 'impedance', offsetPlateLimit(line), 8.05944781156)])).toBe('')
  })

  it('agrees midway with the exact strip once that is wide', () => {
    const line = offset(1000, 0, 50, 50, 4)
    expect(offsetPlateLimit(line)).toBeCloseTo(striplineExact({ ...line, spacing: 100e-6 }), 10)
  })

  it('is the same turned upside down, and knows no scale', () => {
    const line = offset(500, 0, 40, 160, 3)
    expect(offsetPlateLimit(offset(500, 0, 160, 40, 3))).toBeCloseTo(offsetPlateLimit(line), 11)
    expect(offsetPlateLimit(tenfold(line))).toBeCloseTo(offsetPlateLimit(line), 11)
  })

  it('refuses a strip on its plane', () => {
    expect(() => offsetPlateLimit(offset(500, 0, 0, 160, 3))).toThrow(RangeError)
  })
})
