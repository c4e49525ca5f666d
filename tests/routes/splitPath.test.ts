import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { pathLength } from '../../src/routes/pathLength.ts'
import { splitBeforeEnd } from '../../src/routes/splitPath.ts'

const bend = [
  { x: 0, y: 0 },
  { x: 3, y: 0 },
  { x: 3, y: 4 },
]

describe('a centre line in two', () => {
  it('is divided inside a piece and at a corner', () => {
    expect(splitBeforeEnd(bend, 1)).toEqual([
      [...bend.slice(0, 2), { x: 3, y: 3 }],
      [{ x: 3, y: 3 }, bend[2]],
    ])
    expect(splitBeforeEnd(bend, 4)).toEqual([bend.slice(0, 2), bend.slice(1)])
  })

  it('is whole on one side where nothing, or all, is asked for', () => {
    expect(splitBeforeEnd(bend, 0)).toEqual([bend, []])
    expect(splitBeforeEnd(bend, 7)).toEqual([[], bend])
    expect(splitBeforeEnd(bend, 9)).toEqual([[], bend])
    expect(splitBeforeEnd([], 1)).toEqual([[], []])
  })

  it('keeps its length, and the last part has what was asked', () => {
    const place = fc.double({ min: -5, max: 5, noNaN: true })
    const path = fc.array(fc.record({ x: place, y: place }), { minLength: 2, maxLength: 8 })
    fc.assert(
      fc.property(path, fc.double({ min: 0.01, max: 0.99, noNaN: true }), (line, share) => {
        const whole = pathLength(line)
        if (!(whole > 1e-3)) return
        const [before, last] = splitBeforeEnd(line, share * whole)
        expect(pathLength(last)).toBeCloseTo(share * whole, 9)
        expect(pathLength(before) + pathLength(last)).toBeCloseTo(whole, 9)
        expect(before.at(-1)).toEqual(last[0])
      }),
      { seed: 20261125 },
    )
  })
})
