import { describe, expect, it } from 'vitest'
import { coverFill } from '../../../src/impedance/closedForm/coverFill.ts'
import { inPermittivity } from '../../../src/impedance/closedForm/inPermittivity.ts'

const bare = { impedance: 60, effectivePermittivity: 2.8 }

describe('coverFill', () => {
  it('changes nothing without a cover, or under a cover of air', () => {
    expect(coverFill(bare, 4, 3.5, 0)).toEqual(bare)
    expect(coverFill(bare, 4, 1, 2).effectivePermittivity).toBeCloseTo(2.8, 12)
  })

  it('drowns the line in an endless cover: its own permittivity when both are the same', () => {
    expect(coverFill(bare, 4, 4, 50).effectivePermittivity).toBeCloseTo(4, 12)
    // Share of the field in the substrate: (2.8 − 1)/(4 − 1) = 0.6.
    expect(coverFill(bare, 4, 3, 50).effectivePermittivity).toBeCloseTo(0.6 * 4 + 0.4 * 3, 12)
  })

  it('answers for substrates close to air', () => {
    const foam = { impedance: 100, effectivePermittivity: 1.003 }
    expect(coverFill(foam, 1.005, 1.005, 50).effectivePermittivity).toBeCloseTo(1.005, 12)
  })

  it('goes there as 1 − e^(−x)', () => {
    expect(coverFill(bare, 4, 4, Math.LN2).effectivePermittivity).toBeCloseTo((2.8 + 4) / 2, 12)
  })

  it('leaves the air line as it is', () => {
    const { impedance, effectivePermittivity } = coverFill(bare, 4, 3.5, 0.7)
    expect(impedance * Math.sqrt(effectivePermittivity)).toBeCloseTo(60 * Math.sqrt(2.8), 11)
  })

  it.each([
    ['a substrate of air', 1, 3.5, 1],
    ['a cover below air', 4, 0.5, 1],
    ['a negative reach', 4, 3.5, -1],
    ['NaN', NaN, 3.5, 1],
  ])('refuses %s', (_what, er, cover, x) => {
    expect(() => coverFill(bare, er, cover, x)).toThrow(RangeError)
  })
})

describe('inPermittivity', () => {
  it('refuses a permittivity below 1', () => {
    expect(() => inPermittivity(bare, 0.99)).toThrow(RangeError)
  })
})
