import { describe, expect, it } from 'vitest'
import { pairBesideGround } from '../../../src/impedance/closedForm/pairBesideGround.ts'
import { missedRows } from '../../helpers/compareTable.ts'
import { checkValues, fourConstants } from '../../helpers/pairShapes.ts'

const line = (impedance: number, effectivePermittivity: number) => ({ impedance, effectivePermittivity })
const PAIR = { even: line(78, 2.95), odd: line(52, 2.3) }
const ALONE = line(66, 2.7)
const BESIDE = line(59, 2.43)

describe('pairBesideGround', () => {
  it('has the values of a second implementation in another language', () => {
    const modes = pairBesideGround(PAIR, { alone: ALONE, besideGround: BESIDE, widthToPlane: 0.7 })
    const expected = [72.3830017953, 50.07291738, 2.73377233792, 2.22806486152]
    expect(missedRows(checkValues('', fourConstants(modes), expected))).toBe('')
  })

  it('leaves the pair alone when the ground does nothing to a single strip', () => {
    const modes = pairBesideGround(PAIR, { alone: ALONE, besideGround: ALONE, widthToPlane: 0.7 })
    fourConstants(modes).forEach((value, index) => {
      expect(value).toBeCloseTo(fourConstants(PAIR)[index] ?? NaN, 12)
    })
  })

  it('lowers the even mode by more than the odd', () => {
    const { even, odd } = pairBesideGround(PAIR, { alone: ALONE, besideGround: BESIDE, widthToPlane: 1 })
    expect(even.impedance / 78).toBeLessThan(odd.impedance / 52)
    expect(odd.impedance).toBeLessThan(52)
  })

  it.each([0, -1, NaN])('refuses width over distance %s', (widthToPlane) => {
    expect(() => pairBesideGround(PAIR, { alone: ALONE, besideGround: BESIDE, widthToPlane })).toThrow(
      /side ground/,
    )
  })
})
