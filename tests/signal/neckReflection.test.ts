import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { neckBeforeDevice, neckBetweenMain } from '../../src/signal/neckReflection.ts'
import { spectralPeak } from './spectralRoute.ts'

const impedance = fc.double({ min: 30, max: 120, noNaN: true })
const neck = fc.record({
  main: impedance,
  sections: fc.array(fc.record({ impedance, delay: fc.double({ min: 1e-12, max: 50e-12, noNaN: true }) }), {
    minLength: 1,
    maxLength: 2,
  }),
  edge: fc.record({
    riseTime: fc.double({ min: 20e-12, max: 200e-12, noNaN: true }),
    shape: fc.constantFrom('gaussian' as const, 'linear' as const),
  }),
})

describe('a neck between main routes', () => {
  // Ramp from end to end in 50 ps: independent implementation of the bounce series, −0.044996528307.
  it('of 40 ohm and 10 ps in 50 ohm sends back 4.5 %', () => {
    const edge = { riseTime: 40e-12, shape: 'linear' } as const
    const peak = neckBetweenMain({ main: 50, sections: [{ impedance: 40, delay: 10e-12 }], edge })
    // The corners of the ramp are rounded, by less than three thousandths of the step of 1/9.
    expect(Math.abs(peak.exact + 0.044996528307)).toBeLessThan(3e-3 / 9)
    expect(peak.shortSection).toBeCloseTo(-0.045, 14)
  })
})

describe('a neck in front of a device', () => {
  it('that matches the main route is a neck between main routes', () => {
    fc.assert(
      fc.property(neck, (tried) => {
        const device = neckBeforeDevice(tried, tried.main)
        const line = neckBetweenMain(tried)
        expect(device.exact).toBeCloseTo(line.exact, 8)
        expect(device.shortSection).toBeCloseTo(line.shortSection, 12)
      }),
      { seed: 61 },
    )
  })

  it('makes no difference if it has the impedance of the main route, whatever the device', () => {
    const edge = { riseTime: 30e-12, shape: 'gaussian' } as const
    for (const device of [15, 50, 10_000]) {
      const peak = neckBeforeDevice({ main: 50, sections: [{ impedance: 50, delay: 40e-12 }], edge }, device)
      expect(Math.abs(peak.exact)).toBeLessThan(1e-7)
      expect(peak.shortSection).toBe(0)
    }
  })

  it('makes the difference that the chain matrices find, to a thousandth of the step', () => {
    fc.assert(
      fc.property(neck, fc.double({ min: 15, max: 500, noNaN: true }), (tried, device) => {
        const exact = neckBeforeDevice(tried, device).exact
        const other = spectralPeak(
          { before: tried.main, sections: tried.sections, after: device },
          tried.edge,
        )
        expect(Math.abs(Math.abs(exact) - Math.abs(other))).toBeLessThan(1e-3)
      }),
      { seed: 62, numRuns: 15 },
    )
  })
})
