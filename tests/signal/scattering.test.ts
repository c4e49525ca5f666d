import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { magnitude } from '../../src/numerics/complex.ts'
import { cascadeMatrix, scatteringOf } from '../../src/signal/scattering.ts'
import { reflectionInto } from './reflectionInto.ts'
import { distance } from './spectralRoute.ts'

const impedance = fc.double({ min: 20, max: 150, noNaN: true })
const section = fc.record({ impedance, delay: fc.double({ min: 1e-12, max: 100e-12, noNaN: true }) })
const sections = fc.array(section, { minLength: 1, maxLength: 5 })
const frequency = fc.double({ min: 1e7, max: 5e10, noNaN: true })

describe('a chain of lines', () => {
  // Independent implementation of the same matrices, 12 digits printed.
  it('of one 40 ohm line of 20 ps at 5 GHz between 50 ohm has the checked parameters', () => {
    const { s11, s12 } = scatteringOf(cascadeMatrix([{ impedance: 40, delay: 20e-12 }], 5e9), 50)
    expect(distance(s11, { re: -0.0783093083052, im: -0.105154649908 })).toBeLessThan(1e-12)
    expect(distance(s12, { re: 0.795110115079, im: -0.592123345879 })).toBeLessThan(1e-12)
  })

  it('conserves energy without loss: |S11|² + |S21|² = 1', () => {
    fc.assert(
      fc.property(sections, frequency, impedance, (chain, f, reference) => {
        const { s11, s21 } = scatteringOf(cascadeMatrix(chain, f), reference)
        expect(Math.abs(magnitude(s11) ** 2 + magnitude(s21) ** 2 - 1)).toBeLessThan(1e-10)
      }),
      { seed: 71 },
    )
  })

  it('passes the same both ways and, if symmetric, reflects the same', () => {
    fc.assert(
      fc.property(sections, frequency, impedance, (chain, f, reference) => {
        const { s12, s21 } = scatteringOf(cascadeMatrix(chain, f), reference)
        const mirrored = scatteringOf(cascadeMatrix([...chain, ...[...chain].reverse()], f), reference)
        expect(distance(s12, s21) < 1e-9 && distance(mirrored.s11, mirrored.s22) < 1e-9).toBe(true)
      }),
      { seed: 72 },
    )
  })

  it('turned round exchanges its ports', () => {
    fc.assert(
      fc.property(sections, frequency, impedance, (chain, f, reference) => {
        const one = scatteringOf(cascadeMatrix(chain, f), reference)
        const turned = scatteringOf(cascadeMatrix([...chain].reverse(), f), reference)
        expect(distance(one.s11, turned.s22) < 1e-9 && distance(one.s22, turned.s11) < 1e-9).toBe(true)
      }),
      { seed: 73 },
    )
  })

  it('matches two impedances as a quarter wave of their geometric mean', () => {
    const quarter = cascadeMatrix([{ impedance: Math.sqrt(40 * 90), delay: 25e-12 }], 1e10)
    expect(magnitude(reflectionInto(quarter, 40, 90))).toBeLessThan(1e-14)
  })

  it('reflects most at a quarter wave, (Z² − R²)/(Z² + R²), and nothing at a half', () => {
    const at = (f: number): number =>
      magnitude(scatteringOf(cascadeMatrix([{ impedance: 70, delay: 25e-12 }], f), 50).s11)
    expect(at(1e10)).toBeCloseTo((4900 - 2500) / (4900 + 2500), 13)
    expect(at(2e10)).toBeLessThan(1e-14)
    expect(at(0.9e10)).toBeLessThan(at(1e10))
  })

  it('loses through a matched line exactly its attenuation', () => {
    const { s11, s21 } = scatteringOf(
      cascadeMatrix([{ impedance: 50, delay: 30e-12, attenuation: 0.1 }], 7e9),
      50,
    )
    expect(magnitude(s21)).toBeCloseTo(Math.exp(-0.1), 13)
    expect(magnitude(s11)).toBeLessThan(1e-14)
  })

  it('gains nothing with loss', () => {
    fc.assert(
      fc.property(
        sections,
        frequency,
        fc.double({ min: 0, max: 0.5, noNaN: true }),
        (chain, f, attenuation) => {
          const { s11, s21 } = scatteringOf(
            cascadeMatrix(
              chain.map((one) => ({ ...one, attenuation })),
              f,
            ),
            50,
          )
          expect(magnitude(s11) ** 2 + magnitude(s21) ** 2).toBeLessThanOrEqual(1 + 1e-10)
        },
      ),
      { seed: 74 },
    )
  })

  it('without a member is no obstacle', () => {
    const none = cascadeMatrix([], 1e9)
    expect([none.a, none.b, none.c, none.d].map(({ re, im }) => [re, im])).toEqual([
      [1, 0],
      [0, 0],
      [0, 0],
      [1, 0],
    ])
    expect(reflectionInto(none, 50, 150)).toEqual({ re: 0.5, im: 0 })
  })

  it('refuses impedances that are not positive', () => {
    expect(() => cascadeMatrix([{ impedance: 0, delay: 1e-12 }], 1e9)).toThrow(RangeError)
    expect(() => scatteringOf(cascadeMatrix([], 1e9), -50)).toThrow(RangeError)
  })
})
