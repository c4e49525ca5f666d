import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { magnitude } from '../../src/numerics/complex.ts'
import { reflectionAt } from '../../src/signal/cascade.ts'
import { cascadeMatrix } from '../../src/signal/scattering.ts'
import { echoesOf } from './bounceSeries.ts'
import { reflectionInto } from './reflectionInto.ts'
import { distance, seriesAt } from './spectralRoute.ts'

const impedance = fc.double({ min: 30, max: 120, noNaN: true })
const section = fc.record({ impedance, delay: fc.double({ min: 1e-12, max: 60e-12, noNaN: true }) })
const cascade = fc.record({
  before: impedance,
  sections: fc.array(section, { minLength: 1, maxLength: 3 }),
  after: fc.double({ min: 15, max: 500, noNaN: true }),
})

describe('the bounce series', () => {
  it('of one section between equal lines is Γ, then −Γ(1 − Γ²)Γ^(2n−2) every round trip', () => {
    const gamma = reflectionAt(50, 70)
    const echoes = echoesOf({ before: 50, sections: [{ impedance: 70, delay: 10e-12 }], after: 50 })
    expect(echoes.length).toBeGreaterThan(4)
    for (const [n, echo] of echoes.entries()) {
      expect(echo.time).toBeCloseTo(n * 20e-12, 20)
      const expected = n === 0 ? gamma : -gamma * (1 - gamma ** 2) * gamma ** (2 * n - 2)
      expect(Math.abs(echo.amplitude - expected)).toBeLessThan(1e-15)
    }
  })

  it('adds up to the reflection at rest', () => {
    fc.assert(
      fc.property(cascade, (tried) => {
        const sum = echoesOf(tried).reduce((total, echo) => total + echo.amplitude, 0)
        expect(Math.abs(sum - reflectionAt(tried.before, tried.after))).toBeLessThan(1e-5)
      }),
      { seed: 31 },
    )
  })

  it('is, at any frequency, the reflection of the chain matrices', () => {
    fc.assert(
      fc.property(cascade, fc.double({ min: 1e8, max: 1e11, noNaN: true }), (tried, frequency) => {
        const exact = reflectionInto(cascadeMatrix(tried.sections, frequency), tried.before, tried.after)
        expect(distance(seriesAt(echoesOf(tried), frequency), exact)).toBeLessThan(1e-5)
      }),
      { seed: 32 },
    )
  })

  it('never sends back more than came: |ρ| ≤ 1 at any frequency', () => {
    fc.assert(
      fc.property(cascade, fc.double({ min: 1e8, max: 1e11, noNaN: true }), (tried, frequency) => {
        expect(magnitude(seriesAt(echoesOf(tried), frequency))).toBeLessThanOrEqual(1 + 1e-5)
      }),
      { seed: 33 },
    )
  })

  it('merges the echoes of equally long sections', () => {
    const twice = { impedance: 60, delay: 10e-12 }
    const split = echoesOf({ before: 50, sections: [twice, twice, twice], after: 50 })
    const whole = echoesOf({ before: 50, sections: [{ impedance: 60, delay: 30e-12 }], after: 50 })
    expect(split).toHaveLength(whole.length)
    for (const [n, echo] of split.entries())
      expect(echo.amplitude).toBeCloseTo(whole[n]?.amplitude ?? NaN, 12)
  })

  it('is silent where nothing changes', () => {
    expect(echoesOf({ before: 50, sections: [{ impedance: 50, delay: 10e-12 }], after: 50 })).toEqual([])
  })
})
