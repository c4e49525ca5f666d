import { evaluate } from 'mathjs'
import { describe, expect, it } from 'vitest'
import { sheetPermittivity } from '../../../src/impedance/closedForm/sheetPermittivity.ts'

const sheets = (...pairs: (readonly [number, number])[]): Parameters<typeof sheetPermittivity>[0] =>
  pairs.map(([thickness, relativePermittivity]) => ({ thickness, relativePermittivity }))

describe('sheetPermittivity', () => {
  it('is the permittivity of a single sheet, and of equal sheets however divided', () => {
    expect(sheetPermittivity(sheets([100, 3.7]), 50)).toBeCloseTo(3.7, 12)
    expect(sheetPermittivity(sheets([100, 1.005]), 50)).toBeCloseTo(1.005, 12)
    expect(sheetPermittivity(sheets([20, 3.7], [30, 3.7], [50, 3.7]), 50)).toBeCloseTo(3.7, 12)
  })

  // Plates in series: d/Σ(di/εi) = 3/(1/3 + 2/4).
  it('is that of plates in series under a wide trace', () => {
    expect(sheetPermittivity(sheets([1, 3], [2, 4]), 1e9)).toBeCloseTo(3.6, 8)
  })

  it('leans to the nearest sheet under a narrow trace', () => {
    expect(sheetPermittivity(sheets([50, 4.2], [50, 3.2]), 1e-3)).toBeGreaterThan(
      sheetPermittivity(sheets([50, 4.2], [50, 3.2]), 100),
    )
    expect(sheetPermittivity(sheets([50, 3.2], [50, 4.2]), 30)).toBeLessThan(3.6)
  })

  // An independent evaluation of the expression in the doc block.
  it('weighs as it describes', () => {
    const p = evaluate('1 - 1/(1.2 + 1.5 * 80/100)') as number
    const expected = 1 / (0.3 ** p / 4.2 + (0.8 ** p - 0.3 ** p) / 3.4 + (1 - 0.8 ** p) / 3)
    expect(sheetPermittivity(sheets([30, 4.2], [50, 3.4], [20, 3]), 80)).toBeCloseTo(expected, 12)
  })

  it('does not change in a tenfold scale', () => {
    expect(sheetPermittivity(sheets([300, 4.2], [700, 3.4]), 800)).toBeCloseTo(
      sheetPermittivity(sheets([30, 4.2], [70, 3.4]), 80),
      12,
    )
  })

  it.each([
    ['no sheets', sheets(), 1],
    ['a sheet without thickness', sheets([0, 4]), 1],
    ['a permittivity below 1', sheets([1, 0.5]), 1],
    ['no width', sheets([1, 4]), 0],
    ['NaN', sheets([NaN, 4]), 1],
  ])('refuses %s', (_what, stack, width) => {
    expect(() => sheetPermittivity(stack, width)).toThrow(RangeError)
  })
})
