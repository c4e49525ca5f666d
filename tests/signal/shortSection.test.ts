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

  // Textbook, from memory: a capacitance across a line sends −C Z₀/(2 t_r) of a ramp back.
  it('is −C Z0/(2 t_r) for a capacitance across the line, in front of any device −C Z0 Zd²/(Zd + Z0)² twice over t_r', () => {
    const edge = { riseTime: 0.8 * 400e-12, shape: 'linear' } as const
    const hanging = { impedance: 25, delay: 25 * 0.2e-12 }
    const sections = [{ impedance: 50, delay: 3e-12, hanging }]
    const peak = (after: number): number => shortSectionPeak({ before: 50, sections, after }, edge)
    expect(peak(50)).toBeCloseTo((-0.2 * 50) / (2 * 400), 14)
    expect(peak(200)).toBeCloseTo((-2 * 0.2 * 50 * (200 / 250) ** 2) / 400, 14)
  })

  it('tends to the exact peak of a Gaussian edge with lines that hang beside as well', () => {
    const hung = fc.record({ impedance, hanging: fc.option(impedance) })
    fc.assert(
      fc.property(
        impedance,
        fc.double({ min: 10, max: 1000, noNaN: true }),
        fc.array(hung, { minLength: 1, maxLength: 3 }),
        (line, device, chain) => {
          const sections = chain.map(({ impedance: z, hanging }, index) => ({
            impedance: z,
            delay: (index + 1) * 1e-15,
            hanging: hanging === null ? null : { impedance: hanging, delay: 2e-15 },
          }))
          const cascade = { before: line, sections, after: device }
          const edge = { riseTime: 100e-12, shape: 'gaussian' } as const
          const parts = sections.flatMap(({ hanging, ...section }) => [
            [section],
            [{ impedance: line, delay: 0, hanging }],
          ])
          const each = parts.reduce(
            (sum, part) => sum + Math.abs(shortSectionPeak({ ...cascade, sections: part }, edge)),
            0,
          )
          const exact = reflectedPeak(cascade, edge)
          expect(Math.abs(exact - shortSectionPeak(cascade, edge))).toBeLessThanOrEqual(3e-3 * each + 3e-8)
        },
      ),
      { seed: 53, numRuns: 60 },
    )
  })

  // Two lines in parallel behind a joint: Z Z₀/(Z + Z₀) against Z₀, a reflection of −Z₀/(2Z + Z₀).
  it('reaches what a step meets where a long line hangs, for an edge far faster than it', () => {
    const hanging = { impedance: 35, delay: 60e-12 }
    const cascade = { before: 50, sections: [{ impedance: 50, delay: 1e-12, hanging }], after: 50 }
    const edge = { riseTime: 4e-12, shape: 'gaussian' } as const
    const root = -50 / (2 * 35 + 50)
    expect(shortSectionPeak(cascade, edge)).toBeCloseTo(root, 12)
    // What comes back from its open end takes it to +0.07 and on to nothing.
    expect(reflectedPeak(cascade, edge)).toBeCloseTo(root, 5)
  })

  it('refuses impedances that are not positive', () => {
    const edge = { riseTime: 50e-12, shape: 'gaussian' } as const
    const section = { impedance: 0, delay: 1e-12 }
    expect(() => shortSectionPeak({ before: 50, sections: [section], after: 50 }, edge)).toThrow(RangeError)
    expect(() => shortSectionPeak({ before: -50, sections: [], after: 50 }, edge)).toThrow(RangeError)
  })
})
