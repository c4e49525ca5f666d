import { describe, expect, it } from 'vitest'
import type { Board } from '../../src/board/board.ts'
import { neighbourCoupling } from '../../src/impedance/neighbourCoupling.ts'
import type { Route } from '../../src/routes/route.ts'
import { deriveSection } from '../../src/section/deriveSection.ts'
import { nearEndPeak } from '../../src/signal/crosstalk.ts'
import { nearEndAfter } from '../../src/signal/nearEndAfter.ts'
import type { NeckCoupling } from '../../src/signal/neckCoupling.ts'
import { neckCouplings } from '../../src/signal/neckCouplings.ts'
import { NeckSections } from '../../src/signal/neckSections.ts'
import type { Point } from '../../src/units/quantity.ts'
import { exampleBoard } from '../board/exampleBoard.ts'
import { modelTable, ps, route, um, withClass } from './fixtures.ts'

const board = withClass(await exampleBoard(), 'data', {
  edge: { riseTime: ps(90), shape: 'gaussian', basis: '' },
})

/** Straight, from left to right; y is of the centre line. */
function laid(net: string, y: number, change: Partial<Route> = {}, from = 0, to = 2000): Route {
  const path = [from, to].map((x): Point => ({ x: um(x), y: um(y) }))
  return route({ net, ball: net, path, neckLength: um(to - from), dogBoneLength: 0, ...change })
}

function couplings(routes: readonly Route[], on: Board = board): NeckCoupling[] {
  return neckCouplings(on, routes, modelTable(on, routes))
}

function of(net: string, found: readonly NeckCoupling[]): NeckCoupling {
  const one = found.find((each) => each.net === net)
  if (one === undefined) throw new Error(`nothing beside ${net}`)
  return one
}

/** The same noise put together from the coefficient, without the stage. */
function byHand(gap: number, length: number, riseTime: number, inner: number | null = null): number {
  const request = { layer: 3, width: um(80), gap: inner, coplanarGap: null, broadsideLayer: null }
  const section = deriveSection(board.stackup, request)
  const coupling = neighbourCoupling(section, board.analysis.frequency, { width: um(80), gap })
  if (coupling === null) throw new Error('no coupling')
  const piece = { ...coupling, length, delay: coupling.delay * length }
  return nearEndPeak([piece], { riseTime, shape: 'gaussian' })
}

describe('neckCouplings', () => {
  it('add the near-end noise of the traces on either side', () => {
    const found = couplings([laid('DQ0', 0), laid('DQ1', 170), laid('DQ2', -250)])
    const { nearEnd, neighbours, limit, structure, partner } = of('DQ0', found)
    expect(neighbours.map(({ net }) => net)).toEqual(['DQ1', 'DQ2'])
    expect(nearEnd).toBeCloseTo(byHand(um(90), um(2000), ps(90)) + byHand(um(170), um(2000), ps(90)), 9)
    expect({ limit, structure, partner }).toEqual({ limit: 0.05, structure: 'single', partner: null })
    expect(neighbours[0]).toMatchObject({ riseTime: ps(90), stretches: [{ coupled: false }] })
    expect(neighbours[0]?.smallestGap).toBeCloseTo(um(90), 12)
  })

  it('name a trace of a pair alone where the other leaves on another layer', () => {
    const on = (net: string, y: number, exitLayer: number): Route => laid(net, y, { exitLayer })
    const apart = couplings([on('TX0_P', 0, 3), on('DQ0', 170, 3), on('TX0_N', 0, 6), on('DQ1', 170, 6)])
    const pairs = apart.filter((each) => each.structure === 'pair')
    expect(pairs.map(({ net, partner, layer }) => [net, partner, layer])).toEqual([
      ['TX0_P', null, 3],
      ['TX0_N', null, 6],
    ])
    const together = couplings([on('TX0_P', 0, 3), on('TX0_N', 400, 3), on('DQ0', 170, 3)])
    expect(together.filter((each) => each.structure === 'pair').map(({ partner }) => partner)).toEqual([
      'TX0_N',
    ])
  })

  it('take the edge of the trace that disturbs, not of the one that is disturbed', () => {
    const fast = withClass(board, 'serial', { edge: { riseTime: ps(30), shape: 'gaussian', basis: '' } })
    const found = couplings([laid('DQ0', 0), laid('TX0_P', 170)], fast)
    // A trace of a pair swings half as far as the pair.
    expect(of('DQ0', found).nearEnd).toBeCloseTo(byHand(um(90), um(2000), ps(30)) / 2, 9)
    expect(of('TX0_P', found).nearEnd).toBeCloseTo(byHand(um(90), um(2000), ps(90)), 9)
  })

  it('count a pair as one neck: differential where it runs coupled, its single trace before', () => {
    const pair = { gap: um(100), neckLength: um(2000) }
    const stretches = [
      { coupled: false, length: um(500), beside: [] },
      { coupled: true, length: um(1500), beside: [] },
    ]
    const found = couplings([
      laid('TX0_N', 0, { ...pair, stretches }),
      laid('TX0_P', 180, { ...pair, stretches }),
      laid('DQ0', 350, {}, 500, 2000),
      laid('DQ1', -170, {}, 0, 400),
    ])
    const { neighbours, partner, gap } = of('TX0_P', found)
    expect({ partner, gap }).toEqual({ partner: 'TX0_N', gap: um(100) })
    expect(found.filter(({ net }) => net.startsWith('TX0'))).toHaveLength(1)
    const noise = Object.fromEntries(neighbours.map(({ net, nearEnd }) => [net, nearEnd]))
    expect(noise['DQ0']).toBeCloseTo(byHand(um(90), um(1500), ps(90), um(100)), 9)
    expect(noise['DQ1']).toBeCloseTo(byHand(um(90), um(400), ps(90)), 9)
  })

  it('stay silent about necks with nothing in reach, three heights between planes and four over one', () => {
    // L3 has 100 µm below and 150 µm above, L8 75 µm to its plane.
    const sections = new NeckSections(board)
    expect(sections.reach(3)).toBeCloseTo(um(300), 12)
    expect(sections.reach(8)).toBeCloseTo(um(300), 12)
    expect(sections.reach(2)).toBe(0)
    expect(couplings([laid('DQ0', 0), laid('DQ1', 381)])).toEqual([])
    expect(couplings([laid('DQ0', 0), laid('DQ1', 379)])).toHaveLength(2)
  })

  it('leave out little beyond the reach: no more than 0.6 % between planes and 2.5 % over one, at any length', () => {
    for (const [layer, most] of [
      [3, 0.006],
      [8, 0.025],
    ] as const) {
      const request = { layer, width: um(80), gap: null, coplanarGap: null, broadsideLayer: null }
      const coupling = neighbourCoupling(deriveSection(board.stackup, request), 1e9, {
        width: um(80),
        gap: new NeckSections(board).reach(layer),
      })
      expect(coupling?.backward).toBeLessThan(most)
    }
  })

  it('send something on to the far end over one plane, and hardly anything between two', () => {
    const [outer] = couplings([laid('DQ0', 0, { exitLayer: 8 }), laid('DQ1', 170, { exitLayer: 8 })])
    const [inner] = couplings([laid('DQ0', 0), laid('DQ1', 170)])
    expect(outer?.neighbours[0]?.farEnd).toBeLessThan(-0.001)
    expect(inner?.farEnd).toBeLessThan(1e-4)
  })

  it('give the impedance of the neck while its neighbour switches with it and against it', () => {
    const routes = [laid('DQ0', 0), laid('DQ1', 170)]
    const quiet = modelTable(board, routes).neck('data', 3, 'U1')?.runs?.impedance ?? NaN
    const impedance = of('DQ0', couplings(routes)).neighbours[0]?.impedance
    expect(impedance?.againstIt).toBeLessThan(quiet)
    expect(impedance?.withIt).toBeGreaterThan(quiet)
  })

  it('change the impedance of a pair that runs apart by half as much as that of the trace beside which they are', () => {
    const apart = laid('TX0_P', 0, { stretches: [{ coupled: false, length: um(2000), beside: [] }] })
    const found = couplings([apart, laid('DQ0', 170)])
    const quiet = modelTable(board, [apart]).neck('serial', 3, 'U1')?.runs?.impedance ?? NaN
    const single = neighbourCoupling(
      deriveSection(board.stackup, {
        layer: 3,
        width: um(80),
        gap: null,
        coplanarGap: null,
        broadsideLayer: null,
      }),
      board.analysis.frequency,
      { width: um(80), gap: um(90) },
    )
    const against = of('TX0_P', found).neighbours[0]?.impedance?.againstIt ?? NaN
    expect(1 - against / quiet).toBeCloseTo((1 - (single?.againstIt ?? NaN)) / 2, 9)
  })

  it('name the traces whose row cannot be solved, and leave them out of the sum', () => {
    // 5 µm at the foot of 15 µm of copper would etch away.
    const thin = laid('DQ2', -170, { width: um(5) })
    const routes = [laid('DQ0', 0), laid('DQ1', 170)]
    const found = of('DQ0', neckCouplings(board, [...routes, thin], modelTable(board, routes)))
    expect(found.unsolved).toEqual(['DQ2'])
    expect(found.nearEnd).toBeCloseTo(byHand(um(90), um(2000), ps(90)), 9)
  })

  it('name the setting of the description as the limit’s source, or the practice it was taken from', async () => {
    const stated = await exampleBoard([
      ['reflection_limit: 5 %', 'reflection_limit: 5 %, crosstalk_limit: 2 %'],
    ])
    const routes = [laid('DQ0', 0), laid('DQ1', 170)]
    expect(couplings(routes, stated)[0]).toMatchObject({
      limit: 0.02,
      limitSource: 'analysis settings of the description',
    })
    expect(couplings(routes)[0]?.limitSource).toMatch(/^common practice, no source/)
  })

  it('say nothing of layers without a plane in sight', () => {
    const bare = {
      ...board,
      stackup: {
        ...board.stackup,
        copper: board.stackup.copper.map((each) => ({ ...each, role: 'signal' as const })),
      },
    }
    expect(
      new NeckSections({ ...bare, stackup: { ...bare.stackup, layers: bare.stackup.copper } }).reach(3),
    ).toBe(0)
  })
})

describe('nearEndAfter', () => {
  const found = of('DQ0', couplings([laid('DQ0', 0), laid('DQ1', 170), laid('DQ2', -250)]))

  it('is the same as before where nothing changes', () => {
    expect(nearEndAfter(board, found, { what: 'length', share: 1 })).toBeCloseTo(found.nearEnd, 12)
    expect(nearEndAfter(board, found, { what: 'gap', gap: um(50) })).toBeCloseTo(found.nearEnd, 12)
  })

  it('is that of routes laid so', () => {
    const wider = of('DQ0', couplings([laid('DQ0', 0), laid('DQ1', 250), laid('DQ2', -250)]))
    expect(nearEndAfter(board, found, { what: 'gap', gap: um(170) })).toBeCloseTo(wider.nearEnd, 9)
    const shorter = of('DQ0', couplings([laid('DQ0', 0, {}, 0, 1000), laid('DQ1', 170), laid('DQ2', -250)]))
    expect(nearEndAfter(board, found, { what: 'length', share: 0.5 })).toBeCloseTo(shorter.nearEnd, 9)
  })
})
