import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { eachNeighbour } from '../../../src/escape/clearance/neighbours.ts'
import type { Box } from '../../../src/escape/clearance/neighbours.ts'

const SEED = 20261125

function pairsOf(boxes: readonly Box[]): string[] {
  const pairs: string[] = []
  eachNeighbour(boxes, (one, other) => {
    pairs.push(`${Math.min(one, other)}-${Math.max(one, other)}`)
  })
  return pairs
}

const boxes = (size: number, largest: number): fc.Arbitrary<Box[]> =>
  fc.array(
    fc
      .tuple(
        fc.integer({ min: -size, max: size }),
        fc.integer({ min: -size, max: size }),
        fc.integer({ min: 0, max: largest }),
        fc.integer({ min: 0, max: largest }),
      )
      .map(([left, low, width, height]) => ({ left, right: left + width, low, high: low + height })),
    { maxLength: 60 },
  )

describe('eachNeighbour', () => {
  it.each([
    ['small', 1000, 40],
    ['of all sizes', 1000, 2000],
    ['in few places', 3, 2],
    ['far apart', 1e12, 1],
  ])('hands out every pair of boxes that meet, each pair once: %s', (_, size, largest) => {
    fc.assert(
      fc.property(boxes(size, largest), (list) => {
        const found = pairsOf(list)
        expect(new Set(found).size).toBe(found.length)
        const meeting = list.flatMap((one, index) =>
          list.slice(index + 1).flatMap((other, offset) => {
            const meet =
              one.left <= other.right &&
              other.left <= one.right &&
              one.low <= other.high &&
              other.low <= one.high
            return meet ? [`${index}-${index + 1 + offset}`] : []
          }),
        )
        expect(meeting.filter((pair) => !found.includes(pair))).toEqual([])
      }),
      { seed: SEED, numRuns: 150 },
    )
  })

  it('takes none, one, and several in one point or one line', () => {
    const dot = { left: 5, right: 5, low: 5, high: 5 }
    expect(pairsOf([])).toEqual([])
    expect(pairsOf([dot])).toEqual([])
    expect(pairsOf([dot, dot, dot]).toSorted((a, b) => a.localeCompare(b))).toEqual(['0-1', '0-2', '1-2'])
    expect(pairsOf([dot, { ...dot, left: 3, right: 1e9 }])).toEqual(['0-1'])
  })

  it('visits about as many pairs as boxes on a regular field, not their square', () => {
    const side = 60
    const field = Array.from({ length: side * side }, (_, index): Box => {
      const [left, low] = [(index % side) * 800, Math.floor(index / side) * 800]
      return { left, right: left + 500, low, high: low + 500 }
    })
    let visits = 0
    eachNeighbour(field, () => visits++)
    // Eight neighbours each, seen from one side, at most.
    expect(visits).toBeLessThanOrEqual(4 * field.length)
  })
})
