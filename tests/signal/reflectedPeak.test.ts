import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { echoesOf } from '../../src/signal/echoes.ts'
import { peakOf } from '../../src/signal/peakOf.ts'
import { spectralPeak } from './spectralRoute.ts'

const impedance = fc.double({ min: 30, max: 120, noNaN: true })
const shape = fc.constantFrom('gaussian' as const, 'linear' as const)
const section = fc.record({ impedance, delay: fc.double({ min: 1e-12, max: 60e-12, noNaN: true }) })

describe('the peak of the echoes', () => {
  // Independent implementation of the same bounce series; ramp times 0–100 %, 12 digits printed.
  it.each([
    { z: 40, delay: 10e-12, ramp: 50e-12, peak: -0.044996528307 },
    { z: 60, delay: 5e-12, ramp: 100e-12, peak: 0.00916666666667 },
    { z: 40, delay: 50e-12, ramp: 20e-12, peak: -0.111111111111 },
  ])('of a $z ohm section in 50 ohm is $peak of a ramp', ({ z, delay, ramp, peak }) => {
    const echoes = echoesOf({ before: 50, sections: [{ impedance: z, delay }], after: 50 })
    expect(Math.abs(peakOf(echoes, { riseTime: 0.8 * ramp, shape: 'linear' }) - peak)).toBeLessThan(1e-8)
  })

  it('agrees with the chain matrices brought back to time, to a thousandth of the step', () => {
    fc.assert(
      fc.property(
        impedance,
        fc.array(section, { minLength: 1, maxLength: 3 }),
        fc.double({ min: 15e-12, max: 200e-12, noNaN: true }),
        shape,
        (line, sections, riseTime, edgeShape) => {
          const cascade = { before: line, sections, after: line }
          const edge = { riseTime, shape: edgeShape }
          const difference = Math.abs(peakOf(echoesOf(cascade), edge)) - Math.abs(spectralPeak(cascade, edge))
          expect(Math.abs(difference)).toBeLessThan(1e-3)
        },
      ),
      { seed: 41, numRuns: 16 },
    )
  })

  it('agrees with them for dog-bone, barrel and neck, to a part in a thousand of the peak itself', () => {
    const sections = [
      { impedance: 58, delay: 21e-12 },
      { impedance: 36, delay: 6e-12 },
      { impedance: 72, delay: 4e-12 },
    ]
    for (const riseTime of [20e-12, 60e-12, 200e-12]) {
      const cascade = { before: 50, sections, after: 50 }
      const edge = { riseTime, shape: 'gaussian' } as const
      expect(peakOf(echoesOf(cascade), edge) / spectralPeak(cascade, edge)).toBeCloseTo(1, 3)
    }
  })

  it('finds the plateau of a step that nothing ends', () => {
    for (const edgeShape of ['gaussian', 'linear'] as const) {
      expect(peakOf([{ time: 0, amplitude: -0.2 }], { riseTime: 1e-11, shape: edgeShape })).toBeCloseTo(
        -0.2,
        12,
      )
    }
  })

  it('finds a late peak behind a gap that the edge does not bridge', () => {
    const echoes = [
      { time: 0, amplitude: 0.1 },
      { time: 5e-9, amplitude: -0.4 },
    ]
    expect(peakOf(echoes, { riseTime: 1e-11, shape: 'gaussian' })).toBeCloseTo(-0.3, 12)
  })

  it('does not depend on the unit of time', () => {
    const at = (unit: number): number =>
      peakOf(echoesOf({ before: 50, sections: [{ impedance: 63, delay: 7 * unit }], after: 50 }), {
        riseTime: 40 * unit,
        shape: 'gaussian',
      })
    expect(at(1e-12) / at(1e-9)).toBeCloseTo(1, 9)
  })

  it('is nothing without echoes, and needs a rise time', () => {
    expect(peakOf([], { riseTime: 1e-11, shape: 'gaussian' })).toBe(0)
    expect(() => peakOf([], { riseTime: 0, shape: 'gaussian' })).toThrow(RangeError)
  })
})
