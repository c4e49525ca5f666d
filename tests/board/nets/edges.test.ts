import { erf } from 'mathjs'
import { describe, expect, it } from 'vitest'
import { dataRateOf, edgeFromRate, edgeOf } from '../../../src/board/nets/edges.ts'

/** Rise time 10–90 % of a Gaussian edge that takes a second between 20 and 80 %. */
const GAUSSIAN_RATIO = edgeOf({ rise: 1, between: '20-80', shape: 'gaussian' }).riseTime

/** Normal distribution function, from mathjs. */
const normal = (z: number): number => (1 + erf(z / Math.SQRT2)) / 2

describe('an edge', () => {
  it('that is Gaussian takes as much longer between 10 and 90 % as the normal quantiles say', () => {
    // Rises from 20 to 80 % in unit time: its standard deviation follows, and with it where 10 and 90 % lie.
    const level = (share: number): number => {
      let [low, high] = [-10, 10]
      for (let step = 0; step < 200; step += 1) {
        const middle = (low + high) / 2
        if (normal(middle) < share) low = middle
        else high = middle
      }
      return low
    }
    expect(GAUSSIAN_RATIO).toBeCloseTo((level(0.9) - level(0.1)) / (level(0.8) - level(0.2)), 9)
  })

  // z(0.9) = 1.2816 and z(0.8) = 0.8416 in any table of the normal distribution: half the last digit of each.
  it('has the ratio of the printed quantiles', () => {
    expect(Math.abs(GAUSSIAN_RATIO - 1.2816 / 0.8416)).toBeLessThan(1.5e-4)
  })

  it('that is straight takes 0.8 of the whole between 10 and 90 %, and 0.6 between 20 and 80 %', () => {
    const whole = 100e-12
    const { riseTime } = edgeOf({ rise: 0.6 * whole, between: '20-80', shape: 'linear' })
    expect(riseTime / whole).toBeCloseTo(0.8, 12)
    expect(whole / riseTime).toBeCloseTo(1.25, 12)
  })

  it('counts as Gaussian between 10 and 90 % where it does not say', () => {
    expect(edgeOf({ rise: 60e-12 })).toEqual({
      riseTime: 60e-12,
      shape: 'gaussian',
      basis: '60.0 ps, 10–90 %, Gaussian',
    })
  })

  it('keeps what was stated for print', () => {
    const edge = edgeOf({ rise: 60e-12, between: '20-80', shape: 'linear' })
    expect(edge.basis).toBe('60.0 ps, 20–80 %, linear')
  })

  it('from a rate is 0.3 unit intervals between 20 and 80 %', () => {
    const edge = edgeFromRate(dataRateOf({ rate: { bits: 8e9 } }))
    expect(edge.riseTime / GAUSSIAN_RATIO).toBeCloseTo(0.3 * 125e-12, 15)
    expect(edge.basis).toBe('37.5 ps, 20–80 %, Gaussian, from 8 Gb/s')
  })
})

describe('a data rate', () => {
  it('of two levels has as many symbols as bits, and its Nyquist frequency at half of them', () => {
    expect(dataRateOf({ rate: { bits: 3.2e9 } })).toEqual({ bitRate: 3.2e9, levels: 2, nyquist: 1.6e9 })
    expect(dataRateOf({ rate: { symbols: 1.6e9 } })).toEqual({ bitRate: 1.6e9, levels: 2, nyquist: 0.8e9 })
  })

  it('of four levels carries two bits a symbol', () => {
    expect(dataRateOf({ rate: { bits: 64e9 }, levels: 4 }).nyquist).toBe(16e9)
    expect(dataRateOf({ rate: { symbols: 32e9 }, levels: 4 }).bitRate).toBe(64e9)
  })
})
