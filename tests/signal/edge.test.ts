import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  edgeAt,
  edgeLength,
  edgeSpan,
  gaussianSlopeAt,
  steepestSlope,
  type EdgeShape,
} from '../../src/signal/edge.ts'

const shapes: EdgeShape['shape'][] = ['gaussian', 'linear']
const INCH = 25.4e-3
const LIGHT = 299_792_458

describe('an edge', () => {
  it.each(shapes)('of %s shape takes its rise time from 10 to 90 %%', (shape) => {
    const edge = { riseTime: 60e-12, shape }
    const at = (share: number): number => {
      let [low, high] = [edgeSpan(edge).start, edgeSpan(edge).end]
      for (let step = 0; step < 60; step += 1) {
        const middle = (low + high) / 2
        if (edgeAt(edge, middle) < share) low = middle
        else high = middle
      }
      return low
    }
    expect(Math.abs(at(0.9) - at(0.1) - 60e-12)).toBeLessThan(1e-22)
  })

  it('is steepest as a difference quotient says', () => {
    for (const shape of shapes) {
      const edge = { riseTime: 80e-12, shape }
      const middle = shape === 'gaussian' ? 0 : 50e-12
      const quotient = (edgeAt(edge, middle + 1e-15) - edgeAt(edge, middle - 1e-15)) / 2e-15
      expect(quotient / steepestSlope(edge)).toBeCloseTo(1, 7)
    }
  })

  it('if Gaussian, slopes as a difference quotient says everywhere', () => {
    const edge = { riseTime: 80e-12, shape: 'gaussian' } as const
    fc.assert(
      fc.property(fc.double({ min: -100e-12, max: 100e-12, noNaN: true }), (time) => {
        const quotient = (edgeAt(edge, time + 1e-14) - edgeAt(edge, time - 1e-14)) / 2e-14
        expect(Math.abs(quotient - gaussianSlopeAt(80e-12, time))).toBeLessThan(1e-6 * steepestSlope(edge))
      }),
      { seed: 21 },
    )
  })

  it('is flat outside its span', () => {
    for (const shape of shapes) {
      const edge = { riseTime: 80e-12, shape }
      expect(edgeAt(edge, edgeSpan(edge).start)).toBeLessThan(1e-14)
      expect(edgeAt(edge, edgeSpan(edge).end)).toBeGreaterThan(1 - 1e-14)
    }
  })

  // Summit Interconnect, "Impedance Discontinuities", 2021: a 1 ns edge occupies 6 inches of FR-4 (er about 4).
  it('of 1 ns occupies 6 inches of FR-4', () => {
    expect(Math.abs(edgeLength(1e-9, Math.sqrt(4) / LIGHT) / INCH - 6)).toBeLessThan(0.5)
  })

  // D. Telian, Signal Integrity Journal 2548: above a 4 ns edge a 12 inch trace needs no care (round trip).
  it('of 4 ns spans the round trip of a 12 inch trace', () => {
    expect(Math.abs((4e-9 * 12 * INCH * 2) / edgeLength(4e-9, Math.sqrt(4) / LIGHT) / 1e-9 - 4)).toBeLessThan(
      0.5,
    )
  })

  it('needs a rise time and a delay', () => {
    expect(() => steepestSlope({ riseTime: 0, shape: 'linear' })).toThrow(RangeError)
    expect(() => edgeLength(1e-9, NaN)).toThrow(RangeError)
  })
})
