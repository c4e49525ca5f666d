import fc from 'fast-check'
import { all, create } from 'mathjs'
import type { BigNumber } from 'mathjs'
import { describe, expect, it } from 'vitest'
import { isNearer, isNearerToRectangle } from '../../../src/escape/clearance/exactDistance.ts'
import type { Segment } from '../../../src/escape/clearance/exactDistance.ts'

const SEED = 20261125
/** 64 digits: coordinates here have up to 12, and the squares of their products 48. */
const math = create(all ?? {}, { number: 'BigNumber', precision: 64 })

const line = (ax: number, ay: number, bx: number, by: number): Segment => ({ ax, ay, bx, by })
const point = (x: number, y: number): Segment => line(x, y, x, y)
const coordinate = (size: number): fc.Arbitrary<number> => fc.integer({ min: -size, max: size })
const segments = (size: number): fc.Arbitrary<Segment> =>
  fc.tuple(coordinate(size), coordinate(size), coordinate(size), coordinate(size)).map((at) => line(...at))

/** The largest limit that two lines keep: they are nearer than every larger whole number. */
function wholeDistance(one: Segment, other: Segment): number {
  let [low, high] = [0, 2 ** 52]
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2)
    if (isNearer(one, other, middle)) high = middle
    else low = middle
  }
  return low
}

/** Points of a line at equal steps, ends included. */
function samples({ ax, ay, bx, by }: Segment, count: number): [number, number][] {
  return Array.from({ length: count + 1 }, (_, step) => {
    const share = step / count
    return [ax + share * (bx - ax), ay + share * (by - ay)]
  })
}

function sampledDistance(one: Segment, other: Segment, count: number): number {
  const there = samples(other, count)
  return Math.min(
    ...samples(one, count).map(([x, y]) => Math.min(...there.map(([u, v]) => Math.hypot(x - u, y - v)))),
  )
}

/** u and v with u x + v y equal to the greatest common divisor, the third: Euclid’s algorithm. */
function bezout(x: number, y: number): [number, number, number] {
  let [a, b] = [Math.abs(x), Math.abs(y)]
  let [u, nextU, v, nextV] = [1, 0, 0, 1]
  while (b !== 0) {
    const times = Math.floor(a / b)
    ;[a, b] = [b, a - times * b]
    ;[u, nextU] = [nextU, u - times * nextU]
    ;[v, nextV] = [nextV, v - times * nextV]
  }
  return [u * Math.sign(x), v * Math.sign(y), a]
}

describe('isNearer', () => {
  // Triangles of whole sides: 3² + 4² = 5², 5² + 12² = 13², 20² + 21² = 29².
  const triples = [
    [3, 4, 5],
    [5, 12, 13],
    [20, 21, 29],
  ] as const
  const scales = [1, 12_345, 87_654_321, 33_333_333_333]
  const cases = triples.flatMap((triple) => scales.map((scale) => [...triple, scale] as const))

  it.each(cases)('two points %d and %d apart are %d apart, times %d', (a, b, c, scale) => {
    const other = point(a * scale, -b * scale)
    expect(isNearer(point(0, 0), other, c * scale)).toBe(false)
    expect(isNearer(point(0, 0), other, c * scale + 1)).toBe(true)
  })

  it.each(cases)(
    'a point beside a line along (%d, %d) is as far as its foot, %d times %d',
    (a, b, c, scale) => {
      // The line runs through the origin along (a, b); the point lies on the normal (−b, a), whose length is c.
      const slope = line(-7 * a, -7 * b, 3 * a, 3 * b)
      const beside = point(-b * scale, a * scale)
      expect(isNearer(slope, beside, c * scale)).toBe(false)
      expect(isNearer(slope, beside, c * scale + 1)).toBe(true)
      const longer = line(-7 * a * scale, -7 * b * scale, 3 * a * scale, 3 * b * scale)
      const nudged = point(-b * scale + Math.sign(b), a * scale)
      expect(isNearer(longer, beside, c * scale)).toBe(false)
      expect(isNearer(longer, nudged, c * scale)).toBe(true)
    },
  )

  it('tells distances apart that floating point takes for equal', () => {
    // 10¹¹ + 1 and 10¹¹ squared differ by 2 parts in 10¹¹, their sums with small squares by far less.
    const far = 100_000_000_000
    expect(far * far + 1).toBe(far * far)
    expect(isNearer(point(0, 0), point(far, 1), far)).toBe(false)
    expect(isNearer(point(0, 0), point(far, 0), far)).toBe(false)
    expect(isNearer(point(0, 1), line(-far, 0, far, 1), 1)).toBe(true)
    expect(isNearer(point(0, 1), line(-far, 0, far, 0), 1)).toBe(false)
  })

  it('agrees with 64-digit arithmetic on the distance from a point to a line beside it', () => {
    fc.assert(
      fc.property(
        segments(1e11),
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        fc.integer({ min: -1e9, max: 1e9 }),
        (base, share, out) => {
          const [dx, dy] = [base.bx - base.ax, base.by - base.ay]
          const length = Math.hypot(dx, dy)
          fc.pre(length > 2e9)
          const x = Math.round(base.ax + share * dx - (out / length) * dy)
          const y = Math.round(base.ay + share * dy + (out / length) * dx)
          fc.pre((x - base.ax) * dx + (y - base.ay) * dy > 0)
          fc.pre((x - base.bx) * dx + (y - base.by) * dy < 0)
          const big = (...values: number[]): BigNumber[] => values.map((value) => math.bignumber(value))
          const distance = math.distance(big(x, y), big(base.ax, base.ay), big(base.bx, base.by))
          // The decimal number's own floor: that of the library takes what is nearly whole for whole.
          expect(wholeDistance(point(x, y), base)).toBe(math.bignumber(distance).floor().toNumber())
        },
      ),
      { seed: SEED, numRuns: 300 },
    )
  })

  it('agrees with what dense points on both lines find', () => {
    const count = 160
    fc.assert(
      fc.property(segments(2000), segments(2000), fc.integer({ min: 1, max: 2500 }), (one, other, limit) => {
        // Points at steps find at least the distance, and at most half a step of each line more.
        const step =
          [one, other].reduce((sum, { ax, ay, bx, by }) => sum + Math.hypot(bx - ax, by - ay), 0) / count
        const found = sampledDistance(one, other, count)
        const nearer = isNearer(one, other, limit)
        expect(nearer || found >= limit - 1e-9).toBe(true)
        expect(!nearer || found - step / 2 < limit + 1e-9).toBe(true)
      }),
      { seed: SEED, numRuns: 400 },
    )
  })

  it('finds crossing and touching lines nearer than any limit, and no limit of nothing kept by less', () => {
    const crossing = [
      [line(-5, -5, 5, 5), line(-5, 5, 5, -5)],
      [line(0, 0, 10, 0), line(4, 0, 4, 9)],
      [line(0, 0, 10, 0), line(10, 0, 20, 7)],
      [line(0, 0, 10, 0), line(3, 0, 20, 0)],
      [line(0, 0, 10, 0), point(3, 0)],
      [line(-1e11, -1, 1e11, 1), line(-1e11, 1, 1e11, -1)],
    ] as const
    expect(crossing.map(([one, other]) => isNearer(one, other, 1))).toEqual(crossing.map(() => true))
    expect(crossing.map(([one, other]) => isNearer(one, other, 0))).toEqual(crossing.map(() => false))
  })

  it('sees that a line which stops one step short does not cross', () => {
    expect(isNearer(line(-1e11, 0, 1e11, 0), line(0, 1, 3, 1e11), 1)).toBe(false)
    expect(isNearer(line(-1e11, 0, 1e11, 0), line(0, 0, 3, 1e11), 1)).toBe(true)
    // Two flat lines whose ends pass each other by one step in 10¹¹: the sign of the turn needs all its digits.
    expect(isNearer(line(0, 0, 1e11, 1e11 - 1), line(1, 0, 1e11, 1e11 - 1), 1)).toBe(true)
    expect(isNearer(line(0, 0, 1e11, 1e11 - 1), line(0, 2, 1e11, 1e11 + 1), 1)).toBe(false)
    expect(isNearer(line(0, 0, 1e11, 1e11 - 1), line(0, 2, 1e11, 1e11 + 1), 2)).toBe(true)
  })

  it('does not take two lines for crossing that lie one behind the other, or as nearly so as can be', () => {
    fc.assert(
      fc.property(coordinate(1e10), coordinate(1e10), fc.integer({ min: 2, max: 9 }), (x, y, times) => {
        fc.pre(Math.abs(x) > 1e6 && Math.abs(y) > 1e6)
        const [u, v, divisor] = bezout(x, y)
        fc.pre(divisor === 1)
        // (−v, u) is off the direction (x, y) by the least area that whole numbers have: 1.
        const behind = line(times * x - v, times * y + u, (times + 2) * x + v, (times + 2) * y - u)
        expect(isNearer(line(0, 0, x, y), behind, 100)).toBe(false)
        expect(isNearer(line(0, 0, (times + 1) * x, (times + 1) * y), behind, 1)).toBe(true)
      }),
      { seed: SEED, numRuns: 1000 },
    )
  })

  it('does not care which line comes first, which end, or where it all stands', () => {
    const moved = ({ ax, ay, bx, by }: Segment, x: number, y: number): Segment =>
      line(ax + x, ay + y, bx + x, by + y)
    fc.assert(
      fc.property(
        segments(50),
        segments(50),
        fc.integer({ min: 1, max: 60 }),
        coordinate(1e11),
        coordinate(1e11),
        (one, other, limit, x, y) => {
          const turned = line(other.bx, other.by, other.ax, other.ay)
          const quarter = ({ ax, ay, bx, by }: Segment): Segment => line(-ay, ax, -by, bx)
          const verdict = isNearer(one, other, limit)
          expect(isNearer(other, one, limit)).toBe(verdict)
          expect(isNearer(one, turned, limit)).toBe(verdict)
          expect(isNearer(moved(one, x, y), moved(other, x, y), limit)).toBe(verdict)
          expect(isNearer(quarter(one), quarter(other), limit)).toBe(verdict)
        },
      ),
      { seed: SEED, numRuns: 1000 },
    )
  })
})

describe('isNearerToRectangle', () => {
  const area = line(-10, -20, 30, 40)

  it('counts a line inside, through, or at the edge', () => {
    const lines = [
      point(0, 0),
      line(-5, 0, 5, 1),
      line(-90, 0, 90, 1),
      line(-50, 15, -10, 15),
      line(-50, 40, 50, 40),
    ]
    expect(lines.map((each) => isNearerToRectangle(each, area, 1))).toEqual(lines.map(() => true))
  })

  it('measures to the nearest edge or corner outside', () => {
    // Corner (30, 40): 3, 4 beyond it is 5 away.
    expect(isNearerToRectangle(point(33, 44), area, 5)).toBe(false)
    expect(isNearerToRectangle(point(33, 44), area, 6)).toBe(true)
    expect(isNearerToRectangle(line(37, -90, 37, 90), area, 7)).toBe(false)
    expect(isNearerToRectangle(line(37, -90, 37, 90), area, 8)).toBe(true)
  })

  it('agrees with the nearest of all whole points inside', () => {
    const size = 12
    fc.assert(
      fc.property(segments(40), fc.integer({ min: 1, max: 40 }), (each, limit) => {
        const small = line(-size, -size, size, size)
        const inside = Array.from({ length: 2 * size + 1 }, (_, x) =>
          Array.from({ length: 2 * size + 1 }, (_unused, y) => point(x - size, y - size)),
        ).flat()
        const nearest = inside.some((dot) => isNearer(each, dot, limit))
        // The area holds every point; between whole ones a line may come nearer by less than half a diagonal.
        expect(!nearest || isNearerToRectangle(each, small, limit)).toBe(true)
        const reached = inside.some((dot) => isNearer(each, dot, limit + 1))
        expect(!isNearerToRectangle(each, small, limit) || reached).toBe(true)
      }),
      { seed: SEED, numRuns: 150 },
    )
  })
})
