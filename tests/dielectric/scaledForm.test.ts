import { describe, expect, it } from 'vitest'
import { scaleBetween } from '../../src/dielectric/scaledForm.ts'

const knots = [
  { thickness: 400e-6, scale: 1.08, band: 0.007 },
  { thickness: 100e-6, scale: 1, band: 0.001 },
]

describe('the scale of a closed form between knots', () => {
  it('is that of a knot, with its band, at the knot', () => {
    const at = scaleBetween(knots)
    expect(at(100e-6).scale).toBeCloseTo(1, 12)
    expect(at(400e-6)).toMatchObject({ scale: 1.08, band: 0.007 })
  })

  it('runs straight over the logarithm, with half of the change in its band midway', () => {
    const { scale, band } = scaleBetween(knots)(200e-6)
    expect(scale).toBeCloseTo(1.04, 12)
    expect(band).toBeCloseTo(0.004 + 0.04, 12)
  })

  it('stays level outside', () => {
    const at = scaleBetween(knots)
    expect(at(50e-6).scale).toBe(1)
    expect(at(900e-6).scale).toBe(1.08)
  })

  it('keeps the first of two knots that are as good as one', () => {
    const at = scaleBetween([{ thickness: 101e-6, scale: 1.5, band: 0.002 }, ...knots])
    expect(at(101e-6)).toMatchObject({ scale: 1.5, band: 0.002 })
    expect(at(90e-6).scale).toBe(1.5)
  })

  it('refuses to do without knots', () => {
    expect(() => scaleBetween([])).toThrow('at least one knot')
  })
})
