import { describe, expect, it } from 'vitest'
import { skinDepth, surfaceResistance } from '../../../src/impedance/closedForm/skinEffect.ts'
import { missedRows } from '../../helpers/compareTable.ts'
import { checkValues } from '../../helpers/pairShapes.ts'

describe('skin effect', () => {
  it('has the check values of an independent implementation, annealed copper', () => {
    const actual = [
      skinDepth(1.7241e-8, 1e9),
      surfaceResistance(1.7241e-8, 1e9),
      surfaceResistance(1.7241e-8, 10e9),
    ]
    const rows = checkValues('', actual, [2.08978379694e-6, 0.00825013574383, 0.0260892199561])
    expect(missedRows(rows)).toBe('')
  })

  it('gives copper 2.1 micrometres at 1 GHz and 66 at 1 MHz, as handbooks print', () => {
    // D. M. Pozar, "Microwave Engineering", example 1.2 prints 6.60e-7 m at 10 GHz, 5.813e7 S/m (from memory).
    expect(skinDepth(1 / 5.813e7, 10e9)).toBeCloseTo(6.6e-7, 9)
    expect(skinDepth(1.7241e-8, 1e6)).toBeCloseTo(66e-6, 6)
  })

  it('makes the surface resistance the resistivity over the depth', () => {
    expect(surfaceResistance(3e-8, 4e9) * skinDepth(3e-8, 4e9)).toBeCloseTo(3e-8, 20)
  })

  it.each([
    [0, 1e9],
    [1e-8, 0],
    [NaN, 1e9],
    [1e-8, -1],
  ])('refuses resistivity %s and frequency %s', (resistivity, frequency) => {
    expect(() => skinDepth(resistivity, frequency)).toThrow(/skin effect/)
    expect(() => surfaceResistance(resistivity, frequency)).toThrow(/skin effect/)
  })
})
