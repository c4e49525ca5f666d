import { describe, expect, it } from 'vitest'
import { dielectricLoss, substrateShare } from '../../../src/impedance/closedForm/dielectricLoss.ts'
import { missedRows } from '../../helpers/compareTable.ts'
import { checkValues } from '../../helpers/pairShapes.ts'

describe('dielectricLoss', () => {
  it('has the check values of an independent implementation, loss tangent 0.02 at 10 GHz', () => {
    const microstrip = [{ share: substrateShare(4, 2.9), lossTangent: 0.02 }]
    const actual = [
      dielectricLoss(4, [{ share: 1, lossTangent: 0.02 }], 10e9),
      dielectricLoss(2.9, microstrip, 10e9),
    ]
    expect(missedRows(checkValues('', actual, [4.1916900439, 3.11783052044]))).toBe('')
  })

  it('reproduces the handbook examples', () => {
    // Pozar, "Microwave Engineering" (from memory). Example 3.5, stripline: εr 2.20, tan δ 0.001, 10 GHz: 0.155 Np/m.
    // Example 3.7, microstrip: εr 9.9, εeff 6.665, tan δ 0.001, 10 GHz: 0.022 dB/cm.
    expect(dielectricLoss(2.2, [{ share: 1, lossTangent: 0.001 }], 10e9)).toBeCloseTo(0.155, 3)
    const share = substrateShare(9.9, 6.665)
    const decibelsPerCentimetre =
      (dielectricLoss(6.665, [{ share, lossTangent: 0.001 }], 10e9) * 20) / Math.LN10 / 100
    expect(Math.abs(decibelsPerCentimetre - 0.022)).toBeLessThan(0.0005)
  })

  it('adds what each dielectric holds, and nothing for air', () => {
    const halves = [
      { share: 0.5, lossTangent: 0.01 },
      { share: 0.5, lossTangent: 0.03 },
    ]
    expect(dielectricLoss(3, halves, 1e9)).toBeCloseTo(
      dielectricLoss(3, [{ share: 1, lossTangent: 0.02 }], 1e9),
      12,
    )
    expect(dielectricLoss(1, [], 1e9)).toBe(0)
  })

  it('takes permittivities hardly above that of vacuum', () => {
    expect(substrateShare(1.005, 1.0025)).toBeCloseTo((1.005 * 0.5) / 1.0025, 10)
    expect(dielectricLoss(1.005, [{ share: 0.5, lossTangent: 0.01 }], 1e9)).toBeGreaterThan(0)
  })

  it('gives the substrate all the energy of a buried line', () => {
    expect(substrateShare(4, 4)).toBe(1)
    expect(substrateShare(4, 1)).toBe(0)
  })

  it('refuses what cannot be', () => {
    expect(() => dielectricLoss(4, [], 0)).toThrow(/frequency > 0/)
    expect(() => dielectricLoss(0.9, [], 1e9)).toThrow(/effective permittivity/)
    expect(() => dielectricLoss(4, [{ share: -0.1, lossTangent: 0.02 }], 1e9)).toThrow(/share >= 0/)
    expect(() => dielectricLoss(4, [{ share: 1, lossTangent: -0.02 }], 1e9)).toThrow(/loss tangent >= 0/)
    expect(() => substrateShare(1, 1)).toThrow(/permittivity > 1/)
  })
})
