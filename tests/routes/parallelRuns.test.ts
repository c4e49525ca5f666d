import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { parallelRuns, type ParallelRun } from '../../src/routes/parallelRuns.ts'
import type { Route } from '../../src/routes/route.ts'
import type { Point } from '../../src/units/quantity.ts'
import { route } from '../signal/fixtures.ts'

const um = 1e-6
const WIDTH = 80 * um

function laid(
  net: string,
  points: readonly (readonly [number, number])[],
  change: Partial<Route> = {},
): Route {
  const path = points.map(([x, y]): Point => ({ x: x * um, y: y * um }))
  return route({ net, ball: net, width: WIDTH, exitLayer: 3, path, ...change })
}

function runsOf(
  routes: readonly Route[],
  reach = 300 * um,
  partners: Readonly<Record<string, string>> = {},
): ParallelRun[] {
  return parallelRuns(routes, { reach: () => reach, partnerOf: (net) => partners[net] ?? null })
}

const told = (runs: readonly ParallelRun[]): unknown[] =>
  runs.map(({ route: own, neighbour, gap, length, at }) => [
    own.net,
    neighbour.net,
    ...[gap, length, at].map((value) => Number((value / um).toFixed(3))),
  ])

describe('parallelRuns', () => {
  const lower = laid('A', [
    [0, 0],
    [1000, 0],
  ])

  it('measures gap from edge to edge, length and place of what two traces share, for either of them', () => {
    const upper = laid('B', [
      [1500, 200],
      [400, 200],
    ])
    expect(told(runsOf([lower, upper]))).toEqual([
      ['A', 'B', 120, 600, 700],
      ['B', 'A', 120, 600, 800],
    ])
  })

  it('counts widths that differ', () => {
    const wide = laid(
      'B',
      [
        [0, 200],
        [1000, 200],
      ],
      { width: 120 * um },
    )
    expect(told(runsOf([lower, wide]))).toEqual([
      ['A', 'B', 100, 1000, 500],
      ['B', 'A', 100, 1000, 500],
    ])
  })

  it('hides a trace behind another where that stands between, and there alone', () => {
    const between = laid('B', [
      [300, 150],
      [700, 150],
    ])
    const behind = laid('C', [
      [0, 320],
      [1000, 320],
    ])
    const ofFirst = runsOf([lower, between, behind]).filter(({ route: own }) => own === lower)
    expect(told(ofFirst)).toEqual([
      ['A', 'C', 240, 300, 150],
      ['A', 'B', 70, 400, 500],
      ['A', 'C', 240, 300, 850],
    ])
  })

  it('sees one on either side', () => {
    const above = laid('B', [
      [0, 200],
      [1000, 200],
    ])
    const below = laid('C', [
      [0, -200],
      [1000, -200],
    ])
    const names = runsOf([above, lower, below]).map(({ route: own, neighbour }) => own.net + neighbour.net)
    expect(names).toEqual(['BA', 'AB', 'AC', 'CA'])
  })

  it('leaves out the other net of a pair, and what that hides', () => {
    const partner = laid('B', [
      [0, 160],
      [1000, 160],
    ])
    const outside = laid('C', [
      [0, 320],
      [1000, 320],
    ])
    const runs = runsOf([lower, partner, outside], 300 * um, { A: 'B', B: 'A' })
    expect(runs.map(({ route: own, neighbour }) => own.net + neighbour.net)).toEqual(['BC', 'CB'])
  })

  it('ends at the reach, at another layer and at another package', () => {
    const at = (change: Partial<Route>, y = 200): Route =>
      laid(
        'B',
        [
          [0, y],
          [1000, y],
        ],
        change,
      )
    expect(runsOf([lower, at({})], 119 * um)).toEqual([])
    expect(runsOf([lower, at({})], 121 * um)).toHaveLength(2)
    expect(runsOf([lower, at({})], 0)).toEqual([])
    expect(runsOf([lower, at({ exitLayer: 5 })])).toEqual([])
    expect(runsOf([lower, at({ package: 'U9' })])).toEqual([])
    expect(runsOf([lower, at({ net: 'A' })])).toEqual([])
  })

  it('follows diagonals, and takes the middle gap of two that nearly are parallel', () => {
    const first = laid('A', [
      [0, 0],
      [1000, 1000],
    ])
    const second = laid('B', [
      [200, 0],
      [1200, 1000],
    ])
    const [run] = runsOf([first, second])
    expect(run?.gap).toBeCloseTo((200 / Math.SQRT2) * um - WIDTH, 12)
    expect(run?.length).toBeCloseTo((1000 * Math.SQRT2 - 100 * Math.SQRT2) * um, 12)
    const closing = laid('B', [
      [0, 200],
      [1000, 240],
    ])
    expect(runsOf([lower, closing])[0]?.gap).toBeCloseTo(140 * um, 12)
    const crossing = laid('B', [
      [0, 200],
      [1000, 400],
    ])
    expect(runsOf([lower, crossing])).toEqual([])
  })

  it('refuses a reach that is no length', () => {
    expect(() => runsOf([lower], -1)).toThrow('reach on layer 3 must be 0 or more')
    expect(() => runsOf([lower], Infinity)).toThrow(RangeError)
  })
})

describe('parallelRuns of random traces along the axes', () => {
  // Each on a track of its own, so that none hides another by chance of rounding.
  const track = fc.record({
    y: fc.integer({ min: 0, max: 60 }),
    from: fc.integer({ min: 0, max: 100 }),
    length: fc.integer({ min: 5, max: 100 }),
  })

  /** By looking up and down from points along a trace, one at a time. */
  function looked(own: Route, others: readonly Route[], reach: number): Map<string, number> {
    const step = 10 * um
    const lengths = new Map<string, number>()
    const [start, end] = ends(own)
    for (let x = start.x + step / 2; x < end.x; x += step) {
      for (const side of [1, -1]) {
        const [nearest] = others
          .filter((other) => {
            const [from, to] = ends(other)
            return from.x < x && x < to.x && (from.y - start.y) * side > 0
          })
          .sort((a, b) => Math.abs(ends(a)[0].y - start.y) - Math.abs(ends(b)[0].y - start.y))
        if (nearest === undefined || Math.abs(ends(nearest)[0].y - start.y) - WIDTH > reach) continue
        lengths.set(nearest.net, (lengths.get(nearest.net) ?? 0) + step)
      }
    }
    return lengths
  }

  function ends({ path }: Route): [Point, Point] {
    const sorted = [...path].sort((a, b) => a.x - b.x)
    return [sorted[0] ?? { x: NaN, y: NaN }, sorted.at(-1) ?? { x: NaN, y: NaN }]
  }

  it('adds up to what is seen from points along them', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(track, { minLength: 2, maxLength: 14, selector: ({ y }) => y }),
        (tracks) => {
          const routes = tracks.map(({ y, from, length }, index) =>
            laid(`N${index}`, [
              [from * 10, y * 100],
              [(from + length) * 10, y * 100],
            ]),
          )
          const reach = 1500 * um
          const runs = runsOf(routes, reach)
          for (const own of routes) {
            const others = routes.filter((each) => each !== own)
            const expected = looked(own, others, reach)
            const found = new Map<string, number>()
            for (const run of runs.filter((each) => each.route === own)) {
              found.set(run.neighbour.net, (found.get(run.neighbour.net) ?? 0) + run.length)
            }
            expect([...found.keys()].sort()).toEqual([...expected.keys()].sort())
            for (const [net, length] of expected) expect(found.get(net)).toBeCloseTo(length, 9)
          }
        },
      ),
      { seed: 11, numRuns: 200 },
    )
  })
})
