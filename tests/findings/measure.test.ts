import { describe, expect, it } from 'vitest'
import { count, fraction, hertz, layer, metres, ohms, seconds, words } from '../../src/findings/measure.ts'

describe('a measure', () => {
  it('carries its unit, and a band only where it is given one', () => {
    expect(
      [
        metres('a', 1),
        ohms('b', 50, 0.02),
        seconds('c', 2),
        hertz('d', 3),
        fraction('e', 0.5),
        count('f', 4),
        layer('g', 5),
        words('h'),
      ].map(({ unit, band }) => [unit, band]),
    ).toEqual([
      ['m', null],
      ['ohm', 0.02],
      ['s', null],
      ['Hz', null],
      ['fraction', null],
      ['count', null],
      ['layer', null],
      ['text', null],
    ])
  })

  it.each([NaN, Infinity, -Infinity])('is never %d', (value) => {
    expect(() => metres('x', value)).toThrow(RangeError)
  })
})
