import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { PieceGrid, type Piece } from '../../src/routes/pieceGrid.ts'
import { distanceBetweenSegments } from '../../src/routes/segmentDistance.ts'
import { route } from '../signal/fixtures.ts'

const owner = route({ net: 'A', ball: 'A1' })

function piece(x: number, y: number, angle: number, length: number): Piece {
  const along = { x: Math.cos(angle), y: Math.sin(angle) }
  const from = { x, y }
  return {
    route: owner,
    from,
    to: { x: x + length * along.x, y: y + length * along.y },
    along,
    length,
    start: 0,
  }
}

describe('PieceGrid', () => {
  const place = fc.double({ min: -5, max: 5, noNaN: true })
  const pieces = fc.array(
    fc
      .tuple(
        place,
        place,
        fc.double({ min: 0, max: 6.28, noNaN: true }),
        fc.double({ min: 0.01, max: 6, noNaN: true }),
      )
      .map((each) => piece(...each)),
    { minLength: 2, maxLength: 30 },
  )

  it('finds every piece that has a place within the reach', () => {
    fc.assert(
      fc.property(pieces, fc.double({ min: 0.05, max: 2, noNaN: true }), (all, reach) => {
        const grid = new PieceGrid(all, reach)
        for (const own of all) {
          const found = new Set(grid.near(own))
          const missed = all.filter(
            (other) =>
              distanceBetweenSegments(own.from, own.to, other.from, other.to) <= reach && !found.has(other),
          )
          expect(missed).toEqual([])
        }
      }),
      { seed: 5, numRuns: 200 },
    )
  })

  it('does not look at all: pieces far away are left out', () => {
    const near = piece(0, 0, 0, 1)
    const far = piece(100, 100, 0, 1)
    expect(new PieceGrid([near, far], 0.5).near(near)).toEqual([near])
  })

  it('refuses a reach that is none', () => {
    expect(() => new PieceGrid([], 0)).toThrow('reach must be above 0')
  })
})
