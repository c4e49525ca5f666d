import { describe, expect, it } from 'vitest'
import { roughnessCannonball } from '../../../src/impedance/closedForm/roughnessCannonball.ts'
import { skinDepth } from '../../../src/impedance/closedForm/skinEffect.ts'
import { missedRows } from '../../helpers/compareTable.ts'
import { checkValues } from '../../helpers/pairShapes.ts'

describe('roughnessCannonball', () => {
  it('has the check values of an independent implementation, 3 and 8 um at 10 GHz', () => {
    const depth = skinDepth(1.7241e-8, 10e9)
    const actual = [roughnessCannonball(3e-6, depth), roughnessCannonball(8e-6, depth)]
    expect(missedRows(checkValues('', actual, [1.64240314319, 3.20495254561]))).toBe('')
  })

  it('tends to 1 + 84π/36 as frequency rises and to 1 as it falls', () => {
    expect(roughnessCannonball(5e-6, 1e-15)).toBeCloseTo(1 + (84 * Math.PI) / 36, 6)
    expect(roughnessCannonball(5e-6, 1)).toBeCloseTo(1, 9)
  })

  it('refuses a height that is not positive', () => {
    expect(() => roughnessCannonball(0, 1e-6)).toThrow(/ten-point height/)
  })
})
