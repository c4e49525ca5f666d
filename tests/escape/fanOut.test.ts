import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type Exit, fanOut } from '../../src/escape/fanOut.ts'
import { distanceBetweenPaths } from '../../src/routes/pathDistance.ts'
import type { Point } from '../../src/units/quantity.ts'

const exit = (place: number, necksApart: number, mainsApart: number): Exit => ({
  place,
  necksApart,
  mainsApart,
})

/** Centre lines of the neck that runs on and of the main route behind it; the side runs along x, outwards is up. */
function drawn(exits: readonly Exit[]): { neck: Point[]; main: Point[] }[] {
  const runs = fanOut(exits)
  const end = 20 + Math.max(...runs.map(({ outwards }) => outwards))
  return runs.map(({ straight, sideways, outwards }, index) => {
    const x = exits[index]?.place ?? NaN
    const from = { x: x + sideways, y: outwards }
    const aside = { x: x + sideways, y: straight + Math.abs(sideways) }
    return {
      neck: [{ x, y: 0 }, { x, y: straight }, aside, from],
      main: [from, { x: x + sideways, y: end }],
    }
  })
}

describe('main routes beside each other', () => {
  it('begin where the necks end if they have room', () => {
    const exits = [exit(0, 2, 3), exit(3, 2, 3), exit(7, 2, 3)]
    expect(fanOut(exits)).toEqual(exits.map(() => ({ straight: 0, sideways: 0, outwards: 0 })))
    expect(fanOut([])).toEqual([])
  })

  it('part from each other by equal moves', () => {
    expect(fanOut([exit(0, 2, 4), exit(2, 2, 4)])).toEqual([
      { straight: 0, sideways: -1, outwards: 5 },
      { straight: 0, sideways: 1, outwards: 5 },
    ])
  })

  it('keep what necks and main routes need, whatever lies where', () => {
    const row = fc.array(
      fc.record({
        step: fc.double({ min: 1, max: 4, noNaN: true }),
        more: fc.double({ min: 0, max: 2, noNaN: true }),
      }),
      { minLength: 2, maxLength: 9 },
    )
    fc.assert(
      fc.property(row, (steps) => {
        let place = 0
        const exits = steps.map(({ step, more }) => {
          const own = exit(place, 1, 1 + more)
          place += step
          return own
        })
        const lines = drawn(exits)
        lines.slice(1).forEach((line, index) => {
          const before = lines[index]
          const asked = exits[index]
          if (before === undefined || asked === undefined) throw new Error('there is one before')
          // Half way between the two where a neck passes a main route: each has half of its own width.
          const mixed = (asked.necksApart + asked.mainsApart) / 2
          expect(distanceBetweenPaths(before.neck, line.neck)).toBeGreaterThanOrEqual(asked.necksApart - 1e-9)
          expect(distanceBetweenPaths(before.main, line.main)).toBeGreaterThanOrEqual(asked.mainsApart - 1e-9)
          expect(distanceBetweenPaths(before.neck, line.main)).toBeGreaterThanOrEqual(mixed - 1e-9)
          expect(distanceBetweenPaths(before.main, line.neck)).toBeGreaterThanOrEqual(mixed - 1e-9)
        })
      }),
      { seed: 20261125, numRuns: 400 },
    )
  })
})
