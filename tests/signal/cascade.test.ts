import { describe, expect, it } from 'vitest'
import { assertCascade, delayOf, reflectionAt } from '../../src/signal/cascade.ts'

describe('a step of impedance', () => {
  // AMD UG583 table 2-68: 50 ohm breakout, 39 ohm main route; their reflection is our arithmetic, 0.124.
  it('from 39 to 50 ohm reflects 12.4 %', () => {
    expect(Math.abs(reflectionAt(39, 50) - 0.124)).toBeLessThan(0.0005)
    expect(reflectionAt(50, 39)).toBe(-reflectionAt(39, 50))
  })
})

describe('a cascade', () => {
  it('takes the sum of its sections to pass', () => {
    expect(
      delayOf([
        { impedance: 50, delay: 3e-12 },
        { impedance: 60, delay: 4e-12 },
      ]),
    ).toBeCloseTo(7e-12, 20)
  })

  it.each([
    { before: 0, sections: [], after: 50 },
    { before: 50, sections: [], after: NaN },
    { before: 50, sections: [{ impedance: -1, delay: 1e-12 }], after: 50 },
    { before: 50, sections: [{ impedance: 50, delay: -1e-12 }], after: 50 },
    { before: 50, sections: [{ impedance: 50, delay: Infinity }], after: 50 },
  ])('is refused when a value is out of range (%#)', (cascade) => {
    expect(() => {
      assertCascade(cascade)
    }).toThrow(RangeError)
  })
})
