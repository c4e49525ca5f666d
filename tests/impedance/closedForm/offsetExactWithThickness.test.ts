import { evaluate } from 'mathjs'
import { describe, expect, it } from 'vitest'
import {
  LIMITS,
  offsetExactWithThickness,
} from '../../../src/impedance/closedForm/offsetExactWithThickness.ts'
import { offsetPlateLimit } from '../../../src/impedance/closedForm/offsetPlateLimit.ts'
import { offsetWireLimit } from '../../../src/impedance/closedForm/offsetWireLimit.ts'
import { striplineExactWithThickness } from '../../../src/impedance/closedForm/striplineExactWithThickness.ts'
import { missedRows, within } from '../../helpers/compareTable.ts'
import { centred, offset, tenfold } from '../../helpers/lineShapes.ts'
import { readReferenceTables, rowsOf } from '../../helpers/referenceTable.ts'

describe('offsetExactWithThickness', () => {
  // Exact: a strip of width w is a wire of diameter w/2.
  it('is exact for a narrow thin strip anywhere between its planes', () => {
    for (const below of [20, 100, 170, 300]) {
      const strip = offsetExactWithThickness(offset(0.001, 0, below, 400 - below, 1))
      const wire = { diameter: 0.0005, height: below, spacing: 400, relativePermittivity: 1 }
      expect(strip / offsetWireLimit(wire)).toBeCloseTo(1, 7)
    }
  })

  it('tends to the exact plates as the strip widens', () => {
    const error = (width: number): number => {
      const line = offset(width, 0, 100, 300, 4)
      return Math.abs(offsetExactWithThickness(line) / offsetPlateLimit(line) - 1)
    }
    expect(error(4000)).toBeLessThan(0.005)
    expect(error(40000)).toBeLessThan(0.0005)
    expect(error(40000)).toBeLessThan(error(4000))
  })

  it('is the exact thin strip with thickness midway, and the same turned upside down', () => {
    expect(offsetExactWithThickness(offset(100, 35, 100, 100, 4))).toBeCloseTo(
      striplineExactWithThickness(centred(100, 235, 35, 4)),
      10,
    )
    expect(offsetExactWithThickness(offset(100, 35, 200, 100, 4))).toBeCloseTo(
      offsetExactWithThickness(offset(100, 35, 100, 200, 4)),
      11,
    )
  })

  it('agrees with a boundary-element solution to 0.5 %, 0.9 % and 1.4 % up to distance ratios 2, 4 and 12', () => {
    const rows = rowsOf(readReferenceTables('lineReferenceValues.json'), 'stripline').map(
      ({ width = NaN, thickness = NaN, below = NaN, above = NaN, permittivity = NaN, impedance = NaN }) => {
        const ratio = above / below
        const claim = ratio <= 2 ? 0.005 : ratio <= 4 ? 0.009 : 0.014
        const actual = offsetExactWithThickness({
          width,
          thickness,
          below,
          above,
          relativePermittivity: permittivity,
        })
        return within(claim, `w ${width}, ${below} and ${above}`, actual, impedance)
      },
    )
    expect(rows).toHaveLength(6)
    expect(missedRows(rows)).toBe('')
  })

  // The equivalent spacing by an independent evaluation of the expression in its doc block.
  it.each([
    [100, 35, 100, 200],
    [75, 18, 75, 300],
    [300, 12, 500, 80],
  ])('has the equivalent spacing it describes for w %s, t %s, %s and %s', (w, t, below, above) => {
    const scope = { w, t, u: below, v: above }
    evaluate('b = u + t + v; y = min(u, v) + t/2; p = b * sin(pi*y/b); q = t + 4*u*v/(u + v)', scope)
    const spacing = evaluate(
      '(p + q * ((w + t)/(1.92*p))^1.76) / (1 + ((w + t)/(1.92*p))^1.76)',
      scope,
    ) as number
    expect(offsetExactWithThickness(offset(w, t, below, above, 4))).toBeCloseTo(
      striplineExactWithThickness(centred(w, spacing, t, 4)),
      9,
    )
  })

  it('knows no scale, and refuses a strip on its plane', () => {
    const line = offset(100, 35, 100, 200, 4)
    expect(offsetExactWithThickness(tenfold(line))).toBeCloseTo(offsetExactWithThickness(line), 11)
    expect(() => offsetExactWithThickness(offset(100, 35, 100, 0, 4))).toThrow(RangeError)
    expect(LIMITS.find(({ quantity }) => quantity === 'distance ratio')?.max).toBe(12)
  })
})
