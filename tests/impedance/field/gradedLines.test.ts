import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { gradedLines, halved } from '../../../src/impedance/field/gradedLines.ts'

const micro = 1e-6
const finest = fc.double({ min: 2 * micro, max: 60 * micro, noNaN: true })
/** Edges from 100 um to 1 mm, no two of them within a nanometre, in no order. */
const edges = fc.uniqueArray(fc.integer({ min: 100_000, max: 1_000_000 }), { minLength: 1, maxLength: 9 })
const grids = fc.record({ edges: edges.map((list) => list.map((each) => each * 1e-9)), finest })
const range = { from: -2e-3, to: 5e-3 }

function cellsOf(lines: readonly number[]): number[] {
  return lines.slice(1).map((line, index) => line - (lines[index] ?? NaN))
}

// What a grid has to be, by its own description.
describe('graded lines', () => {
  it('rise from one end of the range to the other', () => {
    fc.assert(
      fc.property(grids, (drawn) => {
        const lines = gradedLines(drawn.edges, range, drawn.finest)
        expect(lines[0]).toBeCloseTo(range.from, 12)
        expect(lines.at(-1)).toBeCloseTo(range.to, 12)
        expect(Math.min(...cellsOf(lines))).toBeGreaterThan(0)
      }),
      { seed: 31 },
    )
  })

  it('run through every edge', () => {
    fc.assert(
      fc.property(grids, (drawn) => {
        const lines = gradedLines(drawn.edges, range, drawn.finest)
        for (const edge of drawn.edges) expect(lines).toContain(edge)
      }),
      { seed: 32 },
    )
  })

  it('begin at either side of an edge with a cell of the finest length or less', () => {
    fc.assert(
      fc.property(grids, (drawn) => {
        const lines = gradedLines(drawn.edges, range, drawn.finest)
        const cells = cellsOf(lines)
        for (const edge of drawn.edges) {
          const at = lines.indexOf(edge)
          expect(cells[at - 1]).toBeLessThanOrEqual(drawn.finest * (1 + 1e-9))
          expect(cells[at]).toBeLessThanOrEqual(drawn.finest * (1 + 1e-9))
        }
      }),
      { seed: 33 },
    )
  })

  it('have a line in the middle between edges, however close these are, and as many cells on either side', () => {
    const lines = gradedLines([0, 3 * micro, 400 * micro], { from: -1e-3, to: 1e-3 }, 20 * micro)
    const between = (from: number, to: number): number[] =>
      lines.filter((line) => line > from && line < to).map((line) => (line - from) / (to - from))
    for (const shares of [between(0, 3 * micro), between(3 * micro, 400 * micro)]) {
      expect(shares.length % 2).toBe(1)
      for (const [index, share] of shares.entries()) {
        expect(share + (shares.at(-1 - index) ?? NaN)).toBeCloseTo(1, 9)
      }
    }
  })

  it('take edges that are the same but for rounding as one', () => {
    const [one, two] = [100 * micro, 100 * micro + 1e-14]
    const lines = gradedLines([one, two, 200 * micro], { from: 0, to: 300 * micro }, 10 * micro)
    expect(Math.min(...cellsOf(lines))).toBeGreaterThan(micro)
  })

  it('are twice as many cells of half the length once halved', () => {
    const lines = [0, 1, 4, 6]
    expect(halved(lines)).toEqual([0, 0.5, 1, 2.5, 4, 5, 6])
    expect(halved([])).toEqual([])
  })
})
