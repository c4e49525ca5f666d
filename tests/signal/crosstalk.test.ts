import { describe, expect, it } from 'vitest'
import { farEndPeak, nearEndPeak, type CoupledPiece } from '../../src/signal/crosstalk.ts'
import type { EdgeShape } from '../../src/signal/edge.ts'
import { edgeAt } from './bounceSeries.ts'

const ps = (value: number): number => value * 1e-12
const gaussian: EdgeShape = { riseTime: ps(90), shape: 'gaussian' }
const ramp: EdgeShape = { riseTime: ps(80), shape: 'linear' }

function piece(backward: number, delay: number, forward = 0): CoupledPiece {
  return { backward, delay, forward, length: delay / 6e-9 }
}

/**
 * Two identical lossless lines in one dielectric, all ends in √(Ze Zo), one driven. The near end of the other sees half
 * of the even less half of the odd mode; each mode is a line of impedance Ze or Zo whose ends reflect ∓ρ,
 * ρ = (√Ze − √Zo)/(√Ze + √Zo), so exactly, over the swing of the driven line,
 *
 *     v(t) = ρ Σ ρ^2k [e(t − 2kT) − e(t − 2(k + 1)T)]
 */
function exactNearEnd(even: number, odd: number, delay: number, edge: EdgeShape): number {
  const rho = (Math.sqrt(even) - Math.sqrt(odd)) / (Math.sqrt(even) + Math.sqrt(odd))
  let peak = 0
  for (let time = ps(-300); time < ps(900); time += ps(0.25)) {
    let value = 0
    for (let k = 0; k < 8; k += 1) {
      const begins = edgeAt(edge, time - 2 * k * delay)
      const ends = edgeAt(edge, time - 2 * (k + 1) * delay)
      value += rho ** (2 * k + 1) * (begins - ends)
    }
    peak = Math.max(peak, value)
  }
  return peak
}

describe('nearEndPeak', () => {
  it.each([
    ['short beside the edge, Gaussian', 55, 48, ps(6), gaussian],
    ['as long as half the edge, Gaussian', 55, 48, ps(45), gaussian],
    ['saturated, Gaussian', 60, 45, ps(300), gaussian],
    ['short beside the edge, ramp', 55, 48, ps(6), ramp],
    ['as long as half the edge, ramp', 60, 45, ps(50), ramp],
    ['saturated, ramp', 60, 45, ps(300), ramp],
  ])(
    'is the exact peak of two matched lines but for the square of their coupling: %s',
    (_, even, odd, delay, edge) => {
      const coefficient = (even - odd) / (even + odd) / 2
      const exact = exactNearEnd(even, odd, delay, edge)
      // ρ/(1 + ρ²) is the coefficient; later reflections, and what runs back into the driven line, are of ρ² as well.
      const rho = 2 * coefficient
      expect(Math.abs(nearEndPeak([piece(coefficient, delay)], edge) / exact - 1)).toBeLessThan(rho ** 2)
    },
  )

  it('of a ramp is the textbook’s 2 t_d / t_r, and stops at the coefficient', () => {
    // 80 ps from 10 to 90 % are 100 ps in all.
    expect(nearEndPeak([piece(0.08, ps(10))], ramp)).toBeCloseTo(0.08 * 0.2, 12)
    expect(nearEndPeak([piece(0.08, ps(50))], ramp)).toBeCloseTo(0.08, 12)
    expect(nearEndPeak([piece(0.08, ps(500))], ramp)).toBe(0.08)
  })

  it('does not depend on how a length is cut', () => {
    const whole = nearEndPeak([piece(0.07, ps(24))], gaussian)
    expect(
      nearEndPeak(
        Array.from({ length: 8 }, () => piece(0.07, ps(3))),
        gaussian,
      ),
    ).toBeCloseTo(whole, 12)
  })

  it('of unlike pieces is at least what any order of them sends back, and never more than the largest coefficient', () => {
    const pieces = [piece(0.02, ps(20)), piece(0.09, ps(8)), piece(0.05, ps(15)), piece(0.09, ps(5))]
    const bound = nearEndPeak(pieces, gaussian)
    const sent = ordersOf(pieces).map((order) => peakInOrder(order, gaussian))
    expect(Math.max(...sent)).toBeLessThanOrEqual(bound * (1 + 1e-9))
    // One order comes near: the strongest in the middle.
    expect(Math.max(...sent)).toBeGreaterThan(0.97 * bound)
    expect(nearEndPeak([...pieces, ...pieces, ...pieces, ...pieces, ...pieces], gaussian)).toBeLessThan(0.09)
  })

  it('is nothing without neighbours, and refuses spans and edges that are none', () => {
    expect(nearEndPeak([], gaussian)).toBe(0)
    expect(() => nearEndPeak([piece(0.1, -1)], gaussian)).toThrow(RangeError)
    expect(() => nearEndPeak([piece(0.1, 1)], { riseTime: 0, shape: 'linear' })).toThrow(
      'rise time must be above 0',
    )
  })
})

function ordersOf<Item>(items: readonly Item[]): Item[][] {
  if (items.length < 2) return [[...items]]
  return items.flatMap((item, index) =>
    ordersOf(items.filter((_, other) => other !== index)).map((rest) => [item, ...rest]),
  )
}

/** The wave that pieces one behind the other send back, followed in time. */
function peakInOrder(pieces: readonly CoupledPiece[], edge: EdgeShape): number {
  let peak = 0
  for (let time = ps(-300); time < ps(600); time += ps(0.5)) {
    let [start, value] = [0, 0]
    for (const { backward, delay } of pieces) {
      value += backward * (edgeAt(edge, time - start) - edgeAt(edge, time - start - 2 * delay))
      start += 2 * delay
    }
    peak = Math.max(peak, value)
  }
  return peak
}

describe('farEndPeak', () => {
  it('is half the difference of the modes’ delays over the edge, for modes that hardly run apart', () => {
    // Independent implementation of the same equation: Ze 60, Zo 45 ohm, 6.2 and 6.0 ns: −1e-10 s over the rise time.
    const slope = 0.8 / ps(8000)
    const line = { backward: 0.07, forward: -1e-10, length: 1, delay: 6.1e-9 }
    expect(farEndPeak([line], { riseTime: ps(8000), shape: 'linear' })).toBeCloseTo(-1e-10 * slope, 12)
  })

  it('is that of two matched lines whose modes run apart, to first order', () => {
    // Half of the even less half of the odd mode at the far end: (e(t − te) − e(t − to))/2.
    const [slow, fast] = [ps(62), ps(60)]
    let lowest = 0
    for (let time = ps(-100); time < ps(300); time += ps(0.25)) {
      lowest = Math.min(lowest, (edgeAt(gaussian, time - slow) - edgeAt(gaussian, time - fast)) / 2)
    }
    const line = { backward: 0.07, forward: -(slow - fast) / 2 / 10e-3, length: 10e-3, delay: ps(61) }
    expect(farEndPeak([line], gaussian) / lowest).toBeCloseTo(1, 3)
  })

  it('adds along the lengths with their signs, and ends at half the swing', () => {
    const there = { ...piece(0.05, ps(20)), forward: -1e-10 }
    const back = { ...there, forward: 1e-10 }
    expect(farEndPeak([there, back], gaussian)).toBe(0)
    expect(farEndPeak([{ ...there, length: 100 }], gaussian)).toBe(-0.5)
  })
})
