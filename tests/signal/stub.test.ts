import { describe, expect, it } from 'vitest'
import { longestStub, quarterWaveNull, STUB_LOADING } from '../../src/signal/stub.ts'

const INCH = 25.4e-3
const rate = (gigabits: number, levels = 2): Parameters<typeof longestStub>[0] => {
  const bitRate = gigabits * 1e9
  return { bitRate, levels, nyquist: bitRate / Math.log2(levels) / 2 }
}

describe('a via stub', () => {
  // Independent implementation of f = c/(4 L √er), 12 digits printed.
  it('of 1 mm in a dielectric of 4.2, nothing loading it, is a quarter wave at 36.57 GHz', () => {
    expect(Math.abs(quarterWaveNull(1e-3, 4.2, 1) - 36570935204)).toBeLessThan(0.5)
  })

  it('is a quarter wave earlier by the root of its loading', () => {
    expect(quarterWaveNull(1e-3, 4.2, 1) / quarterWaveNull(1e-3, 4.2)).toBeCloseTo(
      Math.sqrt(STUB_LOADING),
      12,
    )
  })

  // D. Telian, Signal Integrity Journal 2962, quoting E. Bogatin: 1.0 inch puts the null on Nyquist at 3 Gb/s.
  it('of 1 inch has its null on the Nyquist frequency of 3 Gb/s in FR-4', () => {
    const inches = INCH * (quarterWaveNull(INCH, 4, 1) / rate(3).nyquist)
    expect(Math.abs(inches / INCH - 1)).toBeLessThan(0.05)
  })

  // Same source: ten times safer is 0.025 inch at 12 Gb/s.
  it('may be 0.025 inch long at 12 Gb/s', () => {
    expect(Math.abs(longestStub(rate(12)) / INCH - 0.025)).toBeLessThan(0.0005)
  })

  // The rule itself: 0.3 inch over Gb/s.
  it('may be 0.3 inch long at 1 Gb/s', () => {
    expect(longestStub(rate(1))).toBeCloseTo(0.3 * INCH, 12)
  })

  it('is judged by its Nyquist frequency when there are four levels', () => {
    expect(longestStub(rate(24, 4))).toBeCloseTo(longestStub(rate(12)), 12)
  })

  it.each([
    [0, 4, 1],
    [1e-3, 0.5, 1],
    [1e-3, 4, 0.9],
    [NaN, 4, 1],
  ])('is refused at length %d, permittivity %d, loading %d', (length, permittivity, loading) => {
    expect(() => quarterWaveNull(length, permittivity, loading)).toThrow(RangeError)
  })
})
