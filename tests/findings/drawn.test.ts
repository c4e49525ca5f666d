import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { drawnDown, drawnNearest, drawnUp, isAbove, isBelow } from '../../src/findings/drawn.ts'
import { formatLength } from '../../src/units/format.ts'
import { parseQuantity } from '../../src/units/parse.ts'
import { exampleBoard } from '../board/exampleBoard.ts'

const base = await exampleBoard()
const length = fc.double({ min: 20e-6, max: 3e-3, noNaN: true })

describe.each(['mm', 'mil'] as const)('a length as it is drawn in %s', (displayUnit) => {
  const board = { ...base, displayUnit }

  it('prints as what it is', () => {
    fc.assert(
      fc.property(length, (value) => {
        for (const drawn of [drawnUp(board, value), drawnDown(board, value), drawnNearest(board, value)]) {
          const read = parseQuantity(formatLength(drawn, displayUnit), 'length', null)
          expect(Math.abs((read.ok ? read.value : NaN) - drawn)).toBeLessThan(1e-12)
        }
      }),
      { seed: 81 },
    )
  })

  it('is no shorter, no longer, or nearest, by less than a step', () => {
    fc.assert(
      fc.property(length, (value) => {
        const step = displayUnit === 'mm' ? 1e-6 : 2.54e-6
        expect(isBelow(drawnUp(board, value), value)).toBe(false)
        expect(drawnUp(board, value) - value).toBeLessThan(step)
        expect(isAbove(drawnDown(board, value), value)).toBe(false)
        expect(value - drawnDown(board, value)).toBeLessThan(step)
        expect(Math.abs(drawnNearest(board, value) - value)).toBeLessThanOrEqual(step / 2 + 1e-15)
      }),
      { seed: 82 },
    )
  })

  it('on the grid stays where it is, whatever a double makes of it', () => {
    for (const value of [76.2e-6, 101.6e-6, 254e-6, 508e-6]) {
      const drawn = displayUnit === 'mm' ? Math.round(value / 1e-6) * 1e-6 : value
      expect(drawnUp(board, drawn)).toBeCloseTo(drawn, 12)
      expect(drawnDown(board, drawn)).toBeCloseTo(drawn, 12)
    }
  })
})

describe('a comparison', () => {
  it('takes the rounding of doubles for no difference, and a part in a million for one', () => {
    expect([isBelow(0.1 + 0.2, 0.3), isAbove(0.1 + 0.2, 0.3)]).toEqual([false, false])
    expect([isBelow(0.3 - 3e-7, 0.3), isAbove(0.3 + 3e-7, 0.3)]).toEqual([true, true])
  })
})
