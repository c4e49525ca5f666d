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

  const none = { impedance: 50, delay: 0 }
  const hung = fc.record({
    impedance,
    delay: fc.double({ min: 1e-12, max: 100e-12, noNaN: true }),
    hanging: fc.option(fc.record({ impedance, delay: fc.double({ min: 1e-13, max: 20e-12, noNaN: true }) })),
  })
  const hungSections = fc.array(hung, { minLength: 1, maxLength: 4 })

  it('with lines that hang beside still conserves energy and passes the same both ways', () => {
    fc.assert(
      fc.property(hungSections, frequency, impedance, (chain, f, reference) => {
        const { s11, s12, s21 } = scatteringOf(cascadeMatrix(chain, f), reference)
        expect(Math.abs(magnitude(s11) ** 2 + magnitude(s21) ** 2 - 1)).toBeLessThan(1e-9)
        expect(distance(s12, s21)).toBeLessThan(1e-9)
      }),
      { seed: 75 },
    )
  })

  // D. M. Pozar, Microwave Engineering, 4th ed., 2012, table 4.1: a shunt admittance; S11 = −jx/(2 + jx), x = ωC Z₀.
  it('with a capacitance across, a short open line, reflects −jx/(2 + jx)', () => {
    for (const [capacitance, f] of [
      [0.1e-12, 5e9],
      [0.3e-12, 12e9],
    ] as const) {
      const hanging = { impedance: 1e-3, delay: capacitance * 1e-3 }
      const { s11, s21 } = scatteringOf(cascadeMatrix([{ ...none, hanging }], f), 50)
      const x = 2 * Math.PI * f * capacitance * 50
      const size = 4 + x * x
      expect(distance(s11, { re: (-x * x) / size, im: (-2 * x) / size })).toBeLessThan(1e-8)
      expect(distance(s21, { re: 4 / size, im: (-2 * x) / size })).toBeLessThan(1e-8)
    }
  })

  // From memory: an open line is a short at a quarter wave, and not there at a half.
  it('with an open line across passes nothing at its quarter wave, and everything at its half', () => {
    const at = (f: number): ReturnType<typeof scatteringOf> =>
      scatteringOf(cascadeMatrix([{ ...none, hanging: { impedance: 35, delay: 10e-12 } }], f), 50)
    expect(magnitude(at(25e9).s21)).toBeLessThan(1e-12)
    expect(distance(at(25e9).s11, { re: -1, im: 0 })).toBeLessThan(1e-12)
    expect(magnitude(at(50e9).s11)).toBeLessThan(1e-12)
  })

  it('has what hangs where a section begins, before the section', () => {
    const hanging = { impedance: 40, delay: 5e-12 }
    const line = { impedance: 70, delay: 8e-12 }
    const together = scatteringOf(cascadeMatrix([{ ...line, hanging }], 9e9), 50)
    const apart = scatteringOf(cascadeMatrix([{ ...none, hanging }, line], 9e9), 50)
    const behind = scatteringOf(cascadeMatrix([line, { ...none, hanging }], 9e9), 50)
    expect(distance(together.s11, apart.s11)).toBeLessThan(1e-13)
    expect(distance(together.s11, behind.s11)).toBeGreaterThan(1e-3)
  })

  it('without a member is no obstacle', () => {
    const nothing = cascadeMatrix([], 1e9)
    expect([nothing.a, nothing.b, nothing.c, nothing.d].map(({ re, im }) => [re, im])).toEqual([
      [1, 0],
      [0, 0],
      [0, 0],
      [1, 0],
    ])
    expect(reflectionInto(nothing, 50, 150)).toEqual({ re: 0.5, im: 0 })
  })

  it('refuses impedances that are not positive', () => {
    expect(() => cascadeMatrix([{ impedance: 0, delay: 1e-12 }], 1e9)).toThrow(RangeError)
    expect(() => scatteringOf(cascadeMatrix([], 1e9), -50)).toThrow(RangeError)
  })
})
