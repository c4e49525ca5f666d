import { describe, expect, it } from 'vitest'
import { roughnessHammerstad } from '../../../src/impedance/closedForm/roughnessHammerstad.ts'
import { skinDepth } from '../../../src/impedance/closedForm/skinEffect.ts'
import { missedRows } from '../../helpers/compareTable.ts'
import { checkValues } from '../../helpers/pairShapes.ts'

describe('roughnessHammerstad', () => {
  it('has the check values of an independent implementation, 10 GHz', () => {
    const depth = skinDepth(1.7241e-8, 10e9)
    const actual = [roughnessHammerstad(0.5e-6, depth), roughnessHammerstad(1e-6, depth)]
    expect(missedRows(checkValues('', actual, [1.43010794894, 1.80750084013]))).toBe('')
  })

  it('is 1 on smooth copper and tends to 2 on very rough copper', () => {
    expect(roughnessHammerstad(0, 1e-6)).toBe(1)
    expect(roughnessHammerstad(1, 1e-6)).toBeCloseTo(2, 9)
  })

  it('refuses negative roughness and no skin depth', () => {
    expect(() => roughnessHammerstad(-1e-6, 1e-6)).toThrow(RangeError)
    expect(() => roughnessHammerstad(1e-6, 0)).toThrow(RangeError)
    expect(() => roughnessHammerstad(NaN, 1e-6)).toThrow(RangeError)
  })
})
