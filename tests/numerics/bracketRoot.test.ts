import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { bracketRoot } from '../../src/numerics/bracketRoot.ts'
import { SolverError } from '../../src/numerics/solverError.ts'

describe('bracketRoot', () => {
  // The Dottie number, root of cos x = x: 0.739 085 133 215 160 641…
  it('finds the root of cos x = x to the last digits', () => {
    expect(bracketRoot((x) => Math.cos(x) - x, 0, 1)).toBeCloseTo(0.7390851332151607, 15)
  })

  it('finds the root of any rising cubic, from either side', () => {
    fc.assert(
      fc.property(fc.double({ min: -5, max: 5, noNaN: true }), (root) => {
        const f = (x: number): number => (x - root) * (1 + (x - root) ** 2)
        expect(bracketRoot(f, -7, 8)).toBeCloseTo(root, 12)
        expect(bracketRoot(f, 8, -7)).toBeCloseTo(root, 12)
      }),
      { seed: 17 },
    )
  })

  it('survives flat and steep functions', () => {
    expect(bracketRoot((x) => Math.expm1(x), -700, 700)).toBeCloseTo(0, 12)
    expect(bracketRoot((x) => (x - 1) ** 9, 0, 3)).toBeCloseTo(1, 1)
    expect(bracketRoot((x) => (x < 0.3 ? -1 : 1), 0, 1)).toBeCloseTo(0.3, 12)
  })

  it('needs far fewer evaluations than bisection where the function is smooth', () => {
    let count = 0
    const f = (x: number): number => {
      count += 1
      return Math.exp(x) - 2
    }
    expect(bracketRoot(f, 0, 2)).toBeCloseTo(Math.LN2, 14)
    expect(count).toBeLessThan(20)
  })

  it('stops at the tolerance it is given', () => {
    let count = 0
    const f = (x: number): number => {
      count += 1
      return x * x - 2
    }
    const root = bracketRoot(f, 0, 2, { tolerance: 1e-2 })
    expect(Math.abs(root - Math.SQRT2)).toBeLessThan(2e-2)
    expect(count).toBeLessThan(12)
  })

  it('returns an end that is a root', () => {
    expect(bracketRoot((x) => x, 0, 1)).toBe(0)
    expect(bracketRoot((x) => x - 1, 0, 1)).toBe(1)
  })

  it('refuses ends of one sign, and NaN', () => {
    expect(() => bracketRoot((x) => x * x + 1, -1, 1)).toThrow(RangeError)
    expect(() => bracketRoot((x) => Math.sqrt(x), -1, 1)).toThrow(RangeError)
  })

  it('says so when it runs out of iterations, with how far it got', () => {
    const run = (): number => bracketRoot((x) => Math.cos(x) - x, 0, 1, { maxIterations: 2 })
    expect(run).toThrow(SolverError)
    expect(run).toThrow(/after 2 iterations/)
  })
})
