import { describe, expect, it } from 'vitest'
import { permittivityAt } from '../../../src/impedance/closedForm/widebandPermittivity.ts'

const FR4 = { relative: 4.2, lossTangent: 0.02, frequency: 1e9 }

describe('wideband permittivity', () => {
  it('returns the given point at its own frequency', () => {
    const back = permittivityAt(FR4, 1e9)
    expect(back.relative).toBeCloseTo(4.2, 12)
    expect(back.lossTangent).toBeCloseTo(0.02, 14)
  })

  // Independent implementation of the same equations: 4.2 with loss tangent 0.02 at 1 GHz.
  it.each([
    [1e8, 4.32321167154, 0.0840476775352],
    [1e10, 4.07679095059, 0.0835184745319],
  ])('agrees with an independent implementation at %g Hz', (frequency, real, imaginary) => {
    const { relative, lossTangent } = permittivityAt(FR4, frequency)
    expect(Math.abs(relative / real - 1)).toBeLessThan(5e-12)
    expect(Math.abs((relative * lossTangent) / imaginary - 1)).toBeLessThan(5e-12)
  })

  it('is constant when lossless', () => {
    expect(permittivityAt({ ...FR4, lossTangent: 0 }, 3e10)).toEqual({ relative: 4.2, lossTangent: 0 })
  })

  it('obeys the local Kramers–Kronig relation: ε″ is π/2 times the fall of ε′ per unit of ln f', () => {
    // For a slowly varying loss, ε″(f) ≈ −(π/2) dε′/d ln f (first term of the dispersion integral).
    for (const frequency of [1e6, 1e7, 1e8, 1e9]) {
      const step = 1e-3
      const above = permittivityAt(FR4, frequency * Math.exp(step)).relative
      const below = permittivityAt(FR4, frequency * Math.exp(-step)).relative
      const { relative, lossTangent } = permittivityAt(FR4, frequency)
      expect((-(Math.PI / 2) * (above - below)) / (2 * step) / (relative * lossTangent)).toBeCloseTo(1, 2)
    }
  })

  it('obeys the whole Kramers–Kronig integral between two frequencies', () => {
    // ε′(f1) − ε′(f2) = (2/π) ∫ ε″(x) [x²/(x² − f1²) − x²/(x² − f2²)] d ln x, principal values; done on a
    // logarithmic midpoint grid placed symmetrically about both singular points.
    const [low, high] = [1e8, 1e10]
    const perDecade = 2000
    const step = Math.LN10 / perDecade
    let sum = 0
    for (let n = -11 * perDecade; n < 9 * perDecade; n++) {
      const x = low * Math.exp((n + 0.5) * step)
      const { relative, lossTangent } = permittivityAt(FR4, x)
      sum += relative * lossTangent * (1 / (1 - (low / x) ** 2) - 1 / (1 - (high / x) ** 2)) * step
    }
    const fall = permittivityAt(FR4, low).relative - permittivityAt(FR4, high).relative
    expect((2 / Math.PI) * sum).toBeCloseTo(fall, 4)
  })

  it('levels off beyond the end frequencies of the poles', () => {
    expect(permittivityAt(FR4, 1e-3).relative).toBeCloseTo(permittivityAt(FR4, 1e-2).relative, 8)
    expect(permittivityAt(FR4, 1e18).relative).toBeCloseTo(permittivityAt(FR4, 1e19).relative, 5)
  })

  it('halves the loss at the lowest pole frequency, 1 kHz, and the highest, 1 THz', () => {
    // arctan(1) is half of arctan(∞): what is lost there tells where the poles end.
    const plateau = permittivityAt(FR4, 3e7)
    for (const end of [1e3, 1e12]) {
      const there = permittivityAt(FR4, end)
      const ratio = (there.relative * there.lossTangent) / (plateau.relative * plateau.lossTangent)
      expect(ratio).toBeCloseTo(0.5, 4)
    }
  })

  it('lies within the second-order term of the constant-loss rule of a published conversion', () => {
    // The PCB Design Magazine, May 2015: 3.6 with loss 0.014 at 1 MHz is 3.385 at 1 GHz, by
    // 3.6 · 1000^(−2 · 0.014 / π). That rule keeps tan δ constant, ours keeps ε″: they part in second order.
    const exponent = ((2 * 0.014) / Math.PI) * Math.log(1000)
    const { relative } = permittivityAt({ relative: 3.6, lossTangent: 0.014, frequency: 1e6 }, 1e9)
    expect(Math.abs(relative - 3.385)).toBeLessThan(0.0005 + (3.6 * exponent * exponent) / 2)
  })

  it('takes a material hardly denser than vacuum', () => {
    const foam = { relative: 1.004, lossTangent: 0.001, frequency: 1e9 }
    expect(permittivityAt(foam, 1e9).relative).toBeCloseTo(1.004, 12)
  })

  it('refuses impossible materials and frequencies, naming the value', () => {
    expect(() => permittivityAt({ ...FR4, relative: 0.5 }, 1e9)).toThrow(/relative >= 1.*got 0.5/)
    expect(() => permittivityAt({ ...FR4, lossTangent: -0.01 }, 1e9)).toThrow(RangeError)
    expect(() => permittivityAt({ ...FR4, lossTangent: NaN }, 1e9)).toThrow(RangeError)
    expect(() => permittivityAt(FR4, 0)).toThrow(/> 0 Hz.*got.*0 Hz/)
  })
})
