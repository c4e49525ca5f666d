import { describe, expect, it } from 'vitest'
import type { Lane } from '../../src/escape/lane.ts'
import type { LaneUser } from '../../src/escape/laneUsers.ts'
import { fitTogether, inOrder, lengthNeeded } from '../../src/escape/laneUsers.ts'
import { fieldOf } from '../../src/escape/field.ts'
import { sidesOf } from '../../src/escape/side.ts'
import { trackCentres } from '../../src/escape/tracks.ts'
import { packageOf, square, um } from './fixtures.ts'

const [top] = sidesOf(fieldOf(packageOf(square(12))))
if (top === undefined) throw new RangeError('a field has four sides')

/** A lane between lines 3 and 4 that is clear over this many micrometres, by depth of the deepest trace. */
function lane(clearUm: number, deeperUm = clearUm): Lane {
  return {
    side: top as NonNullable<typeof top>,
    leftLine: 3,
    rightLine: 4,
    bounds: (depth) => ({ low: 0, high: um(depth < 3 ? clearUm : deeperUm) }),
  }
}

function user(line: number, depth: number, change: Partial<LaneUser> = {}): LaneUser {
  return {
    ball: 100 * line + depth,
    stand: { side: top as NonNullable<typeof top>, line, depth },
    width: um(100),
    traceGap: um(100),
    mate: null,
    ...change,
  }
}

const pairOf = (one: LaneUser, other: LaneUser, gapUm: number): LaneUser[] => [
  { ...one, mate: { ball: other.ball, gap: um(gapUm) } },
  { ...other, mate: { ball: one.ball, gap: um(gapUm) } },
]

const inUm = (centres: readonly number[]): number[] => centres.map((centre) => Math.round(centre * 1e8) / 100)

describe('traces in a lane', () => {
  it('lie in the order in which none crosses another: outer balls at the edges, inner ones in the middle', () => {
    const users = [user(4, 1), user(3, 2), user(4, 3), user(3, 1)]
    expect(inOrder(lane(900), users).map(({ ball }) => ball)).toEqual([301, 302, 403, 401])
  })

  it('fit to the last half micrometre', () => {
    const users = [user(3, 1), user(4, 1)]
    expect(fitTogether(lane(299.6), users, um(0.5))).toBe(true)
    expect(fitTogether(lane(299.4), users, um(0.5))).toBe(false)
  })

  it('are all charged what is clear for the deepest', () => {
    expect(fitTogether(lane(300, 250), [user(3, 1), user(4, 2)], um(0.5))).toBe(true)
    expect(fitTogether(lane(300, 250), [user(3, 1), user(4, 3)], um(0.5))).toBe(false)
  })

  it('need the larger of two different gaps, and the pair’s own inside a pair', () => {
    expect(lengthNeeded([user(3, 1), user(3, 2, { traceGap: um(150) })])).toBeCloseTo(um(350), 12)
    expect(lengthNeeded(pairOf(user(3, 1), user(4, 1), 60))).toBeCloseTo(um(260), 12)
  })

  it('may not part a pair', () => {
    const pair = pairOf(user(3, 1), user(3, 3), 60)
    expect(fitTogether(lane(900), pair, 0)).toBe(true)
    expect(fitTogether(lane(900), [...pair, user(4, 2)], 0)).toBe(true)
    expect(fitTogether(lane(900), [...pair, user(3, 2)], 0)).toBe(false)
  })
})

describe('trackCentres', () => {
  const large = um(1000)

  it('puts one trace in the middle, and shares what is left over equally among more', () => {
    expect(inUm(trackCentres(lane(200), [user(3, 1)], large))).toEqual([100])
    // 360 clear, 300 needed: 20 each side and 20 more between.
    expect(inUm(trackCentres(lane(360), [user(3, 1), user(4, 1)], large))).toEqual([70, 290])
  })

  it('keeps the gap of a pair, wherever its balls lie', () => {
    for (const pair of [pairOf(user(3, 1), user(4, 1), 60), pairOf(user(3, 1), user(3, 2), 60)]) {
      const [one = NaN, other = NaN] = inUm(trackCentres(lane(400), pair, large))
      expect(other - one).toBeCloseTo(160, 9)
      expect(one).toBeCloseTo(120, 9)
    }
  })

  it('keeps traces near their own line in a wide lane', () => {
    const centres = trackCentres(lane(2000), [user(3, 1), user(3, 2), user(4, 1)], um(50))
    expect(inUm(centres)).toEqual([100, 350, 1900])
  })

  it('shares a shortage within the tolerance alike', () => {
    expect(inUm(trackCentres(lane(299.7), [user(3, 1), user(4, 1)], large))).toEqual([49.9, 249.8])
  })
})
