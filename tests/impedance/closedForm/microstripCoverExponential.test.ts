import { describe, expect, it } from 'vitest'
import {
  LIMITS,
  microstripCoverExponential,
} from '../../../src/impedance/closedForm/microstripCoverExponential.ts'
import { microstripHammerstadJensen } from '../../../src/impedance/closedForm/microstripHammerstadJensen.ts'
import { microstrip } from '../../helpers/lineShapes.ts'

const covered = { ...microstrip(100, 100, 35, 4), coverThickness: 20e-6, coverPermittivity: 4 }

describe('microstripCoverExponential', () => {
  // Independent implementation of the same equations: ee = 2.8, εr = 4, c/h = 0.2 and 0.5 give 3.19561594476 and
  // 3.55854467059; that is, shares of 0.329679953967 and 0.632120558828 on the way from 2.8 to 4.
  it.each([
    [20e-6, (3.19561594476 - 2.8) / 1.2],
    [50e-6, (3.55854467059 - 2.8) / 1.2],
  ])('goes the checked share of the way to the substrate under %s m', (coverThickness, share) => {
    const ee = microstripHammerstadJensen(covered).effectivePermittivity
    const { effectivePermittivity } = microstripCoverExponential({ ...covered, coverThickness })
    expect((effectivePermittivity - ee) / (4 - ee)).toBeCloseTo(share, 9)
  })

  it('is the bare line without cover and leaves the air line as it is', () => {
    const bare = microstripHammerstadJensen(covered)
    expect(microstripCoverExponential({ ...covered, coverThickness: 0 }).impedance).toBeCloseTo(
      bare.impedance,
      11,
    )
    const { impedance, effectivePermittivity } = microstripCoverExponential(covered)
    expect(impedance * Math.sqrt(effectivePermittivity)).toBeCloseTo(
      bare.impedance * Math.sqrt(bare.effectivePermittivity),
      10,
    )
  })

  it('is for one material, and refuses a negative cover', () => {
    expect(LIMITS).toEqual([{ quantity: 'permittivity contrast', min: 1, max: 1.01 }])
    expect(() => microstripCoverExponential({ ...covered, coverThickness: -1e-6 })).toThrow(RangeError)
  })
})
