import { describe, expect, it } from 'vitest'
import { broadsidePairCohn, LIMITS } from '../../../src/impedance/closedForm/broadsidePairCohn.ts'
import { offsetPlateLimit } from '../../../src/impedance/closedForm/offsetPlateLimit.ts'
import { striplineExact } from '../../../src/impedance/closedForm/striplineExact.ts'
import { missedRows } from '../../helpers/compareTable.ts'
import { checkValues } from '../../helpers/pairShapes.ts'

function modes(width: number, separation: number, spacing: number, er: number): number[] {
  const { even, odd } = broadsidePairCohn({ width, separation, spacing, relativePermittivity: er })
  return [even, odd]
}

describe('broadsidePairCohn', () => {
  it('has the check values of an independent implementation of the same equations', () => {
    const rows = [
      ...checkValues('air', modes(1, 0.2, 1, 1), [99.6453822726, 25.9976675042]),
      ...checkValues('3.5 wide', modes(150, 100, 400, 4), [79.9668833144, 31.935996684]),
    ]
    expect(missedRows(rows)).toBe('')
  })

  it('is in the odd mode the wide strip between its plane and the virtual ground halfway', () => {
    // The exact plate limit of an offset strip (offsetPlateLimit.ts), another conformal map.
    const [, odd = NaN] = modes(4, 0.2, 1, 1)
    const plate = offsetPlateLimit({
      width: 4,
      thickness: 0,
      below: 0.1,
      above: 0.4,
      relativePermittivity: 1,
    })
    expect(odd / plate).toBeCloseTo(1, 8)
  })

  it('is in the even mode two halves of one strip when the strips come together', () => {
    const [even = NaN] = modes(1, 1e-7, 1, 1)
    expect(even / (2 * striplineExact({ width: 1, spacing: 1, relativePermittivity: 1 }))).toBeCloseTo(1, 6)
  })

  it('solves its modulus from narrow to very wide strips', () => {
    for (const width of [1e-3, 0.1, 1, 10, 150]) {
      const [even = NaN, odd = NaN] = modes(width, 0.2, 1, 1)
      expect(odd).toBeGreaterThan(0)
      expect(even).toBeGreaterThan(odd)
    }
    // Plates: each extra width adds w/(s/2) + w/((b − s)/2) in the odd mode, w/((b − s)/2) in the even one.
    const admittance = (width: number, mode: number): number =>
      376.730313668 / (modes(width, 0.2, 1, 1)[mode] ?? NaN)
    expect(admittance(50, 1) - admittance(49, 1)).toBeCloseTo(1 / 0.1 + 1 / 0.4, 7)
    expect(admittance(50, 0) - admittance(49, 0)).toBeCloseTo(1 / 0.4, 7)
  })

  it('falls with the root of the permittivity', () => {
    expect((modes(1, 0.2, 1, 4)[0] ?? NaN) * 2).toBeCloseTo(modes(1, 0.2, 1, 1)[0] ?? NaN, 10)
  })

  it('states the conditions of the paper', () => {
    expect(LIMITS.map(({ quantity, min, max }) => [quantity, min, max])).toEqual([
      ['width/separation', 0.35, 100],
      ['thickness/separation', 0, 0],
    ])
  })

  it.each([
    [0, 0.2, 1, 1],
    [1, 0, 1, 1],
    [1, 1, 1, 1],
    [161, 0.2, 1, 1],
    [1, 0.2, 1, 0.5],
    [NaN, 0.2, 1, 1],
  ])('refuses width %s, separation %s, spacing %s, permittivity %s', (width, separation, spacing, er) => {
    expect(() => modes(width, separation, spacing, er)).toThrow(/broadside pair/)
  })
})
