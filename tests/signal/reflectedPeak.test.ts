import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { reflectedPeak } from '../../src/signal/reflectedPeak.ts'
import { echoesOf, seriesPeak } from './bounceSeries.ts'
import { spectralPeak } from './spectralRoute.ts'

const impedance = fc.double({ min: 30, max: 120, noNaN: true })
const section = fc.record({ impedance, delay: fc.double({ min: 1e-12, max: 60e-12, noNaN: true }) })
const cascade = fc.record({
  before: impedance,
  sections: fc.array(section, { minLength: 1, maxLength: 3 }),
  after: fc.double({ min: 15, max: 500, noNaN: true }),
})
const riseTime = fc.double({ min: 15e-12, max: 200e-12, noNaN: true })

describe('the reflected peak', () => {
  // Independent implementation of the bounce series; ramp times 0–100 %, 12 digits printed.
  it.each([
    { z: 40, delay: 10e-12, ramp: 50e-12, peak: -0.044996528307 },
    { z: 60, delay: 5e-12, ramp: 100e-12, peak: 0.00916666666667 },
    { z: 40, delay: 50e-12, ramp: 20e-12, peak: -0.111111111111 },
  ])('of a $z ohm section in 50 ohm is $peak of a ramp', ({ z, delay, ramp, peak }) => {
    const edge = { riseTime: 0.8 * ramp, shape: 'linear' } as const
    const found = reflectedPeak({ before: 50, sections: [{ impedance: z, delay }], after: 50 }, edge)
    // Rounded corners: three thousandths of the step.
    expect(Math.abs(found - peak)).toBeLessThan((3e-3 * Math.abs(z - 50)) / (z + 50))
  })

  it('of a Gaussian edge is that of the bounce series, to 2e-5 of itself and 1e-6 of the edge', () => {
    fc.assert(
      fc.property(cascade, riseTime, (tried, rise) => {
        const edge = { riseTime: rise, shape: 'gaussian' } as const
        const exact = Math.abs(seriesPeak(tried, edge))
        const found = Math.abs(reflectedPeak(tried, edge))
        expect(Math.abs(found - exact)).toBeLessThan(2e-5 * exact + 1e-6)
      }),
      { seed: 41, numRuns: 25 },
    )
  })

  it('of a ramp is that of the bounce series, to three thousandths of its largest echo, and not above it', () => {
    fc.assert(
      fc.property(cascade, riseTime, (tried, rise) => {
        const edge = { riseTime: rise, shape: 'linear' } as const
        const largest = Math.max(...echoesOf(tried).map(({ amplitude }) => Math.abs(amplitude)), 0)
        const exact = Math.abs(seriesPeak(tried, edge))
        const found = Math.abs(reflectedPeak(tried, edge))
        expect(found - exact).toBeLessThan(1e-5)
        expect(exact - found).toBeLessThan(3e-3 * largest + 1e-6)
      }),
      { seed: 42, numRuns: 20 },
    )
  })

  it('agrees with the chain matrices for dog-bone, barrel and neck, to a part in a thousand of itself', () => {
    const sections = [
      { impedance: 58, delay: 21e-12 },
      { impedance: 36, delay: 6e-12 },
      { impedance: 72, delay: 4e-12 },
    ]
    for (const rise of [20e-12, 60e-12, 200e-12]) {
      const tried = { before: 50, sections, after: 50 }
      const edge = { riseTime: rise, shape: 'gaussian' } as const
      expect(reflectedPeak(tried, edge) / spectralPeak(tried, edge)).toBeCloseTo(1, 3)
    }
  })

  it('of a short open line that hangs there is that of its capacitance', () => {
    // A pulse of C Z0/2 in area: an edge slow against it sends back −(C Z0/2) of its steepest slope.
    const [capacitance, line, rise] = [0.05e-12, 50, 400e-12]
    const hanging = { impedance: 40, delay: 40 * capacitance }
    const tried = { before: line, sections: [{ impedance: line, delay: 0, hanging }], after: line }
    const edge = { riseTime: rise, shape: 'gaussian' } as const
    expect(reflectedPeak(tried, edge) / ((-capacitance * line * 1.0225) / (2 * rise))).toBeCloseTo(1, 3)
  })

  it('does not depend on the unit of time', () => {
    const at = (unit: number): number =>
      reflectedPeak(
        {
          before: 50,
          sections: [{ impedance: 63, delay: 7 * unit, hanging: { impedance: 40, delay: 3 * unit } }],
          after: 50,
        },
        { riseTime: 40 * unit, shape: 'gaussian' },
      )
    expect(at(1e-12) / at(1e-9)).toBeCloseTo(1, 9)
  })

  it('is nothing without sections, and needs a rise time and impedances', () => {
    const edge = { riseTime: 1e-11, shape: 'gaussian' } as const
    expect(reflectedPeak({ before: 50, sections: [], after: 80 }, edge)).toBeCloseTo(0, 12)
    expect(() => reflectedPeak({ before: 50, sections: [], after: 50 }, { ...edge, riseTime: 0 })).toThrow(
      RangeError,
    )
    expect(() => reflectedPeak({ before: 50, sections: [], after: -1 }, edge)).toThrow(RangeError)
    const hanging = { impedance: 0, delay: 1e-12 }
    expect(() =>
      reflectedPeak({ before: 50, sections: [{ impedance: 50, delay: 0, hanging }], after: 50 }, edge),
    ).toThrow(RangeError)
  })
})
