import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { reflectedPeak } from '../../src/signal/reflectedPeak.ts'
import { shortSectionPeak } from '../../src/signal/shortSection.ts'

const impedance = fc.double({ min: 30, max: 120, noNaN: true })
const shape = fc.constantFrom('gaussian' as const, 'linear' as const)
const delay = fc.double({ min: 0.1e-12, max: 100e-12, noNaN: true })
const riseTime = fc.double({ min: 10e-12, max: 500e-12, noNaN: true })

describe('short-section theory', () => {
  it('is (Z/Z0 − Z0/Z) t/(2 t_r) for a ramp from end to end in t_r', () => {
    const edge = { riseTime: 0.8 * 100e-12, shape: 'linear' } as const
    const peak = shortSectionPeak(
      { before: 50, sections: [{ impedance: 60, delay: 5e-12 }], after: 50 },
      edge,
    )
    expect(peak).toBeCloseTo(((60 / 50 - 50 / 60) * 5) / (2 * 100), 14)
  })

  it('bounds the exact peak of a section between equal lines from above, at any edge', () => {
    fc.assert(
      fc.property(impedance, impedance, delay, riseTime, shape, (line, z, time, rise, edgeShape) => {
        const cascade = { before: line, sections: [{ impedance: z, delay: time }], after: line }
        const edge = { riseTime: rise, shape: edgeShape }
        const exact = reflectedPeak(cascade, edge)
        const theory = shortSectionPeak(cascade, edge)
        expect(Math.abs(exact) <= Math.abs(theory) + 1e-7 && exact * theory >= 0).toBe(true)
      }),
      { seed: 51 },
    )
  })

  it('tends to the exact peak of a Gaussian edge as sections shrink against it, in front of a line or any device', () => {
    fc.assert(
      fc.property(
        impedance,
        fc.double({ min: 10, max: 1000, noNaN: true }),
        fc.array(impedance, { minLength: 1, maxLength: 3 }),
        (line, device, chain) => {
          const sections = chain.map((z, index) => ({ impedance: z, delay: (index + 1) * 1e-15 }))
          const cascade = { before: line, sections, after: device }
          const edge = { riseTime: 100e-12, shape: 'gaussian' } as const
          const exact = reflectedPeak(cascade, edge)
          // Second order in delay over rise time, here 1e-4 of the first, times what the sections do one by one.
          const each = sections.reduce(
            (sum, section) => sum + Math.abs(shortSectionPeak({ ...cascade, sections: [section] }, edge)),
            0,
          )
          expect(Math.abs(exact - shortSectionPeak(cascade, edge))).toBeLessThanOrEqual(3e-3 * each + 3e-8)
        },
      ),
      { seed: 52 },
    )
  })

  it('tends to the exact peak of a ramp for one section between equal lines', () => {
    const edge = { riseTime: 100e-12, shape: 'linear' } as const
    for (const z of [35, 45, 70, 110]) {
      const cascade = { before: 50, sections: [{ impedance: z, delay: 0.2e-12 }], after: 50 }
      expect(reflectedPeak(cascade, edge) / shortSectionPeak(cascade, edge)).toBeCloseTo(1, 4)
    }
  })

  it('reaches the reflection of the step for an edge far faster than the section', () => {
    const cascade = { before: 50, sections: [{ impedance: 40, delay: 50e-12 }], after: 50 }
    for (const edgeShape of ['gaussian', 'linear'] as const) {
      const edge = { riseTime: 5e-12, shape: edgeShape }
      expect(shortSectionPeak(cascade, edge)).toBeCloseTo(-1 / 9, 12)
      expect(reflectedPeak(cascade, edge)).toBeCloseTo(-1 / 9, 7)
    }
  })

  it('adds sections up, a high one and a low one against each other', () => {
    const edge = { riseTime: 200e-12, shape: 'gaussian' } as const
    const high = { impedance: 60, delay: 2e-12 }
    const low = { impedance: 2500 / 60, delay: 2e-12 }
    const peak = shortSectionPeak({ before: 50, sections: [high, low], after: 50 }, edge)
    expect(Math.abs(peak)).toBeLessThan(1e-15)
  })

  it('makes nothing of a section of the line’s own impedance', () => {
    const edge = { riseTime: 50e-12, shape: 'gaussian' } as const
    expect(
      shortSectionPeak({ before: 50, sections: [{ impedance: 50, delay: 9e-12 }], after: 80 }, edge),
    ).toBe(0)
  })

  it('refuses impedances that are not positive', () => {
    const edge = { riseTime: 50e-12, shape: 'gaussian' } as const
    const section = { impedance: 0, delay: 1e-12 }
    expect(() => shortSectionPeak({ before: 50, sections: [section], after: 50 }, edge)).toThrow(RangeError)
    expect(() => shortSectionPeak({ before: -50, sections: [], after: 50 }, edge)).toThrow(RangeError)
  })
})
