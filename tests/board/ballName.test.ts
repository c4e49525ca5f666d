import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { ballName, parseBallName } from '../../src/board/ballName.ts'

/** Letters of the ball in the first column. */
function rowLetters(row: number): string {
  return ballName({ row, column: 0 }).replace(/1$/, '')
}

describe('ball names', () => {
  it('leave out I, O, Q, S, X and Z (JEDEC Publication 95, from memory)', () => {
    const first = Array.from({ length: 20 }, (_, row) => rowLetters(row)).join('')
    expect(first).toBe('ABCDEFGHJKLMNPRTUVWY')
  })

  it('go on after Y with AA, AB, and after AY with BA', () => {
    expect([19, 20, 21, 39, 40].map(rowLetters)).toEqual(['Y', 'AA', 'AB', 'AY', 'BA'])
  })

  // Row count and last row of a 49 × 53 processor package of 1170 balls, as its open board files name them.
  it('call the 49th row BJ', () => {
    expect(rowLetters(48)).toBe('BJ')
  })

  it('read back as the place they were made from', () => {
    const place = fc.record({ row: fc.nat(419), column: fc.nat(9998) })
    fc.assert(
      fc.property(place, (at) => {
        expect(parseBallName(ballName(at))).toEqual(at)
      }),
      { seed: 1, numRuns: 500 },
    )
  })

  it('order rows as their letters do: shorter first, then by alphabet', () => {
    const rows = Array.from({ length: 420 }, (_, row) => rowLetters(row))
    const sorted = [...rows].sort((a, b) =>
      a.length === b.length ? a.localeCompare(b, 'en') : a.length - b.length,
    )
    expect(rows).toEqual(sorted)
    expect(new Set(rows).size).toBe(420)
  })

  it('are read in lower case too', () => {
    expect(parseBallName(' aa14 ')).toEqual({ row: 20, column: 13 })
  })

  it.each(['I3', 'O1', 'Q1', 'S1', 'X1', 'Z1', 'AI1', 'A0', 'A01', '14', 'A', '', 'A-1', 'A1B', 'AAAA1'])(
    'do not include "%s"',
    (name) => {
      expect(parseBallName(name)).toBeNull()
    },
  )

  it('refuse places that are none, with the value', () => {
    expect(() => ballName({ row: 0, column: -1 })).toThrow('got -1')
    expect(() => rowLetters(NaN)).toThrow('got NaN')
    expect(() => rowLetters(0.5)).toThrow('got 0.5')
  })
})
