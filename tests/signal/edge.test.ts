import { describe, expect, it } from 'vitest'
import { edgeLength, edgeSpectrum, settlingOf, steepestSlope, type EdgeShape } from '../../src/signal/edge.ts'
import { edgeAt } from './bounceSeries.ts'

const shapes: EdgeShape['shape'][] = ['gaussian', 'linear']
const INCH = 25.4e-3
const LIGHT = 299_792_458

describe('an edge', () => {
  it.each(shapes)('of %s shape takes its rise time from 10 to 90 %%', (shape) => {
    const edge = { riseTime: 60e-12, shape }
    const at = (share: number): number => {
      let [low, high] = [settlingOf(edge).start, settlingOf(edge).end]
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

  it.each(shapes)('of %s shape moves only within its span, but for a part in a million', (shape) => {
    const edge = { riseTime: 80e-12, shape }
    const { start, end } = settlingOf(edge)
    expect(edgeAt(edge, start)).toBeLessThan(1e-7)
    expect(edgeAt(edge, end)).toBeGreaterThan(1 - 1e-7)
  })

  it.each(shapes)('of %s shape has the spectrum of its slope', (shape) => {
    const edge = { riseTime: 80e-12, shape }
    const { start, end, highest } = settlingOf(edge)
    const step = (end - start) / 20_000
    for (const share of shape === 'gaussian' ? [0, 0.03, 0.2] : [0, 5e-4, 2e-3]) {
      const omega = share * highest
      let [re, im] = [0, 0]
      for (let time = start; time < end; time += step) {
        const passed = edgeAt(edge, time + step) - edgeAt(edge, time)
        re += passed * Math.cos(omega * (time + step / 2))
        im -= passed * Math.sin(omega * (time + step / 2))
      }
      // The ramp's rounding takes little so far below its own frequencies.
      const spectrum = edgeSpectrum(edge, omega)
      expect(Math.hypot(spectrum.re - re, spectrum.im - im)).toBeLessThan(5e-5)
    }
    expect(Math.hypot(edgeSpectrum(edge, highest).re, edgeSpectrum(edge, highest).im)).toBeLessThan(1e-6)
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
