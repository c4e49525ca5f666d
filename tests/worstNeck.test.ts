import { describe, expect, it } from 'vitest'
import type { Board } from '../src/board/board.ts'
import { planEscape } from '../src/escape/planEscape.ts'
import { evaluateLine } from '../src/line.ts'
import type { Route } from '../src/routes/route.ts'
import { NeckJudge } from '../src/worstNeck.ts'
import { netClass, netOf, packageOf, pairOf, um } from './escape/fixtures.ts'
import { laminated } from './escape/variants/fixtures.ts'

const pack = packageOf(['sss', 's.s', 'sss'])
const board = laminated(pack)
const { routes } = planEscape(board, pack, 'through')

const lineOn = (layer: number, width: number, gap: number | null): number =>
  evaluateLine(board, { layer, width, gap, coplanarGap: null, broadsideLayer: null }).impedance

/** The first route again, as another class would run it. */
function routeWith(change: Partial<Route>): Route {
  const [route] = routes
  if (route === undefined) throw new Error('nothing leaves')
  return { ...route, ...change }
}

function paired(): Board {
  const [first, second, ...rest] = board.nets.map(({ name }) => name)
  return { ...board, nets: [...pairOf(first ?? '', second ?? ''), ...rest.map((name) => netOf(name))] }
}

describe('the worst neck of a plan', () => {
  it('is the line that is computed for that section alone, where nothing stands beside it', () => {
    const worst = new NeckJudge(board).judge(board, routes)
    expect(worst).toMatchObject({ kind: 'line', between: 'solid planes', netClass: 'single', layer: 1 })
    expect(worst?.impedance).toBeCloseTo(lineOn(1, um(100), null), 9)
    expect(worst?.tolerances).toBeCloseTo((lineOn(1, um(100), null) - 50) / (0.1 * 50), 9)
  })

  it('is the one furthest from its target, on either side of it', () => {
    const all = [um(60), um(100), um(400)].map((width) => routeWith({ width }))
    const off = all.map(({ width }) => (lineOn(1, width, null) - 50) / 5)
    const expected = off.reduce((most, each) => (Math.abs(each) > Math.abs(most) ? each : most), 0)
    expect(new NeckJudge(board).judge(board, all)?.tolerances).toBeCloseTo(expected, 9)
    expect(new NeckJudge(board).judge(board, all.toReversed())?.tolerances).toBeCloseTo(expected, 9)
  })

  it('counts a pair that runs apart as two lines, and a coupled one as coupled', () => {
    const judge = new NeckJudge(board)
    const apart = judge.judge(paired(), [routeWith({ width: um(75) })])
    const coupled = judge.judge(paired(), [
      routeWith({ width: um(75), gap: um(100), stretches: [{ coupled: true, length: um(800), beside: [] }] }),
    ])
    expect([apart?.kind, coupled?.kind]).toEqual(['differential', 'differential'])
    expect(apart?.impedance).toBeCloseTo(2 * lineOn(1, um(75), null), 9)
    expect(coupled?.impedance).toBeCloseTo(lineOn(1, um(75), um(100)), 9)
    expect(coupled?.impedance).toBeLessThan(apart?.impedance ?? 0)
  })

  it('is none where nothing leaves', () => {
    expect(new NeckJudge(board).judge(board, [])).toBeNull()
  })

  it('counts what stands beside each neck by itself', () => {
    const via = {
      via: 'through',
      pad: null,
      barrel: um(200),
      supply: null,
      pitch: pack.pitch.x,
      pitchAcross: pack.pitch.x,
    }
    const passing = (count: number): Route =>
      routeWith({
        exitLayer: 3,
        via: 'through',
        stretches: [
          {
            coupled: false,
            length: 4e-3,
            beside: [{ ...via, count, covers: count * pack.pitch.x, distance: pack.pitch.x / 2 }],
          },
        ],
      })
    const judged = [0, 2, 8].map((count) => new NeckJudge(board).judge(board, [passing(count)]))
    const solid = lineOn(3, um(100), null)
    const change = judged.map((worst) => (worst?.impedance ?? NaN) / solid - 1)
    expect(change[0]).toBeCloseTo(0, 9)
    // To first order each via changes the impedance by the same.
    expect(Number(change[2]) / Number(change[1])).toBeCloseTo(4, 0)
    expect(judged[2]?.between).toBe('among vias')
  })
})

describe('the width of a main route', () => {
  it('is the stated one', () => {
    const main = { width: um(130), gap: null, length: null, coplanarGap: null }
    expect(new NeckJudge(board).mainWidth(netClass('single', { main }))).toBe(um(130))
  })

  it('meets the target on the layer where it is narrowest; the others are above it with that', () => {
    const width = new NeckJudge(board).mainWidth(netClass('single', { target: 50 })) ?? NaN
    const impedances = [1, 3, 5, 8, 10].map((layer) => lineOn(layer, width, null))
    // The search stops within 0.05 % of the target.
    expect(Math.abs(Math.min(...impedances) / 50 - 1)).toBeLessThan(1e-3)
  })

  it('is none where no width meets the target', () => {
    expect(new NeckJudge(board).mainWidth(netClass('single', { target: 5000 }))).toBeNull()
  })
})
