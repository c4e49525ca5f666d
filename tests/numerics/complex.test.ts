import fc from 'fast-check'
import {
  complex as oracle,
  cosh,
  divide as divideOracle,
  multiply as multiplyOracle,
  sinh,
  type Complex as Oracle,
} from 'mathjs'
import { describe, expect, it } from 'vitest'
import {
  add,
  complex,
  divide,
  hyperbolicCosine,
  hyperbolicSine,
  magnitude,
  multiply,
  scale,
  subtract,
} from '../../src/numerics/complex.ts'
import type { Complex } from '../../src/units/quantity.ts'

const part = fc.double({ min: -5, max: 5, noNaN: true })
const number = fc.record({ re: part, im: part })
const asOracle = (a: Complex): Oracle => oracle(a.re, a.im)

/** Against the size of the number itself, or 1 if that is less. */
function miss(actual: Complex, expected: Oracle): number {
  const size = 1 + Math.hypot(expected.re, expected.im)
  return Math.hypot(actual.re - expected.re, actual.im - expected.im) / size
}

describe('complex arithmetic', () => {
  it('multiplies and divides as mathjs does', () => {
    fc.assert(
      fc.property(number, number, (a, b) => {
        expect(miss(multiply(a, b), multiplyOracle(asOracle(a), asOracle(b)) as Oracle)).toBeLessThan(1e-13)
        fc.pre(magnitude(b) > 1e-3)
        expect(miss(divide(a, b), divideOracle(asOracle(a), asOracle(b)) as Oracle)).toBeLessThan(1e-13)
      }),
      { seed: 11 },
    )
  })

  it('takes hyperbolic cosine and sine as mathjs does', () => {
    fc.assert(
      fc.property(number, (a) => {
        expect(miss(hyperbolicCosine(a), cosh(asOracle(a)))).toBeLessThan(1e-13)
        expect(miss(hyperbolicSine(a), sinh(asOracle(a)))).toBeLessThan(1e-13)
      }),
      { seed: 12 },
    )
  })

  it('adds, subtracts, scales and measures', () => {
    expect(add(complex(1, 2), complex(3, -5))).toEqual({ re: 4, im: -3 })
    expect(subtract(complex(1, 2), complex(3, -5))).toEqual({ re: -2, im: 7 })
    expect(scale(complex(1, -2), 3)).toEqual({ re: 3, im: -6 })
    expect(magnitude(complex(3, 4))).toBe(5)
  })

  it('divides where the square of the divisor would overflow', () => {
    expect(divide(complex(1e200, 1e200), complex(1e200, 1e200))).toEqual({ re: 1, im: 0 })
  })

  it('refuses to divide by zero', () => {
    expect(() => divide(complex(1), complex(0))).toThrow(RangeError)
  })
})
