import { describe, expect, it } from 'vitest'
import type { Board } from '../../src/board/board.ts'
import type { Package } from '../../src/board/packages.ts'
import type { EscapePlan, MainStart } from '../../src/escape/escape.ts'
import { withMains } from '../../src/escape/mainStarts.ts'
import { planEscape } from '../../src/escape/planEscape.ts'
import { distanceBetweenPaths } from '../../src/routes/pathDistance.ts'
import { pathLength } from '../../src/routes/pathLength.ts'
import type { Route } from '../../src/routes/route.ts'
import type { Metres } from '../../src/units/quantity.ts'
import { fabrication, netClass, packageOf, pairOf, um } from './fixtures.ts'
import { laminated } from './variants/fixtures.ts'

const pack = packageOf([
  'ssssssss',
  'ssssssss',
  'ssssssss',
  'sssggsss',
  'sssggsss',
  'ssssssss',
  'ssssssss',
  'ssssssss',
])
/** Necks of 75 um with gaps of 75 um, so that several pass a channel. */
const board = laminated(pack, { classes: [netClass('single', { neck: { width: um(75), gap: um(75) } })] })
const plan = planEscape(board, pack, 'through')

function starts(
  width: Metres | null,
  change: Partial<EscapePlan> = {},
  on: Board = board,
  own: Package = pack,
): readonly MainStart[] {
  return withMains(on, own, { ...plan, ...change }, () => width).mains
}

function routeOf(ball: string): Route {
  const route = plan.routes.find((each) => each.ball === ball)
  if (route === undefined) throw new Error(`no route of ${ball}`)
  return route
}

/** Edge to edge, between what begins at one net and everything of another on its layer. */
function closest(found: readonly MainStart[]): Metres {
  let least = Infinity
  for (const one of found) {
    for (const route of plan.routes) {
      if (route.exitLayer !== one.layer || route.ball === one.ball) continue
      const toNeck = distanceBetweenPaths(one.path, route.path) - (one.width + route.width) / 2
      least = Math.min(least, toNeck)
      const other = found.find(({ ball }) => ball === route.ball)
      if (other === undefined) continue
      const pairs = [
        distanceBetweenPaths(one.path, other.path) - (one.width + other.width) / 2,
        distanceBetweenPaths(one.path, other.runOn) - (one.width + route.width) / 2,
        distanceBetweenPaths(one.runOn, other.runOn) - route.width,
      ]
      least = Math.min(least, ...pairs)
    }
  }
  return least
}

describe('main routes', () => {
  it('begin right where the necks end where they have room', () => {
    const found = starts(um(100))
    expect(found).toHaveLength(plan.routes.length)
    expect(found.every(({ width }) => width === um(100))).toBe(true)
    const atOnce = found.filter(({ runOn }) => runOn.length === 0)
    expect(atOnce.length).toBeGreaterThan(20)
    for (const { ball, path } of atOnce) expect(path[0]).toEqual(routeOf(ball).path.at(-1))
  })

  it('keep the gap of their class from each other and from all necks, by a ruler', () => {
    for (const width of [um(90), um(120), um(200), um(320)]) {
      const found = starts(width)
      expect(found.length).toBeGreaterThan(0.9 * plan.routes.length)
      expect(closest(found)).toBeGreaterThanOrEqual(um(75) - 1.001e-6)
    }
  })

  it('run on as necks until they have room, from where the neck ends', () => {
    const found = starts(um(320))
    const moved = found.filter(({ runOn }) => runOn.length > 0)
    expect(moved.length).toBeGreaterThan(4)
    for (const { ball, runOn, path } of moved) {
      expect(runOn[0]).toEqual(routeOf(ball).path.at(-1))
      expect(runOn.at(-1)).toEqual(path[0])
      expect(pathLength(runOn)).toBeGreaterThan(0)
    }
  })

  it('lead straight away from the side that the net leaves through', () => {
    for (const { ball, path } of starts(um(120))) {
      const [from, to] = path
      if (from === undefined || to === undefined) throw new Error('a start has two points')
      const away = { top: [0, 1], bottom: [0, -1], right: [1, 0], left: [-1, 0] }[routeOf(ball).leaves]
      const length = Math.hypot(to.x - from.x, to.y - from.y)
      expect((to.x - from.x) / length).toBeCloseTo(Number(away[0]), 12)
      expect((to.y - from.y) / length).toBeCloseTo(Number(away[1]), 12)
    }
  })

  it('lengthen the necks that make room for them', () => {
    const found = starts(um(320))
    const { plan: longer } = withMains(board, pack, plan, () => um(320))
    longer.routes.forEach((route, index) => {
      const before = plan.routes[index]
      const main = found.find(({ ball }) => ball === route.ball)
      const more = pathLength(main?.runOn ?? [])
      expect(route.neckLength - (before?.neckLength ?? NaN)).toBeCloseTo(more, 12)
      expect(pathLength(route.path)).toBeCloseTo(route.neckLength - route.dogBoneLength, 12)
      expect(route.stretches.reduce((sum, { length }) => sum + length, 0)).toBeCloseTo(
        pathLength(route.path),
        12,
      )
    })
    const longest = Math.max(...longer.routes.map(({ neckLength }) => neckLength))
    expect(Math.max(...longer.layers.map(({ longestNeck }) => longestNeck ?? 0))).toBe(longest)
    expect(withMains(board, pack, plan, () => null).plan).toBe(plan)
  })

  it('part a pair that makes room for them', () => {
    const nets = [...pairOf('0,3', '0,4'), ...board.nets.filter(({ name }) => !/^0,[34]$/.test(name))]
    const coupledClass = netClass('pair', { structure: 'pair', neck: { width: um(60), gap: um(60) } })
    // Both pass one channel side by side.
    const fine = { outer: um(60), inner: um(60) }
    const finer = fabrication({ traceWidth: fine, traceGap: fine, traceToPad: fine })
    const on = { ...board, nets, classes: [...board.classes, coupledClass], fabrication: finer }
    const before = planEscape(on, pack, 'through')
    const { plan: after, mains } = withMains(on, pack, before, () => um(320))
    const routed = (own: EscapePlan, ball: string): Route => {
      const route = own.routes.find((each) => each.ball === ball)
      if (route === undefined) throw new Error(`no route of ${ball}`)
      return route
    }
    for (const ball of ['0,3', '0,4']) {
      const [bare, longer] = [routed(before, ball), routed(after, ball)]
      const more = pathLength(mains.find((main) => main.ball === ball)?.runOn ?? [])
      expect(more).toBeGreaterThan(um(50))
      expect(bare.stretches.at(-1)?.coupled).toBe(true)
      expect(longer.stretches.slice(0, -1)).toEqual(bare.stretches)
      expect(longer.stretches.at(-1)).toMatchObject({ coupled: false, beside: [] })
      expect(longer.stretches.at(-1)?.length).toBeCloseTo(more, 12)
      expect(Number(longer.uncoupledLength) - Number(bare.uncoupledLength)).toBeCloseTo(more, 12)
    }
  })

  it('are not given where no width is known', () => {
    const { mains, withoutMain } = withMains(board, pack, plan, () => null)
    expect(mains).toEqual([])
    expect(withoutMain).toEqual(
      plan.routes.map(({ ball, net, exitLayer: layer }) => ({
        ball,
        net,
        layer,
        reason: 'no width',
        fault: null,
      })),
    )
  })

  it('are given to each net, or it is told why not', () => {
    for (const width of [um(100), um(320), um(500)]) {
      const { mains, withoutMain } = withMains(board, pack, plan, (_, layer) => (layer === 1 ? width : null))
      const told = [...mains, ...withoutMain].map(({ ball }) => ball)
      expect(told.toSorted()).toEqual(plan.routes.map(({ ball }) => ball).toSorted())
      for (const { layer, reason, fault } of withoutMain) {
        const expected = layer === 1 ? ['too near', 'object'] : ['no width', 'null']
        expect([reason, fault === null ? 'null' : typeof fault]).toEqual(expected)
      }
      expect(withoutMain.length).toBeGreaterThan(0)
    }
  })

  it('are not given where something lies in their way', () => {
    const [route] = plan.routes.filter(({ leaves }) => leaves === 'top')
    const end = route?.path.at(-1)
    if (route === undefined || end === undefined) throw new Error('no route leaves at the top')
    const block = {
      name: 'block',
      layers: [route.exitLayer],
      low: { x: end.x - um(50), y: end.y + um(150) },
      high: { x: end.x + um(50), y: end.y + um(250) },
    }
    const blocked = { ...pack, escape: { ...pack.escape, keepOuts: [block] } }
    const { mains, withoutMain } = withMains({ ...board, packages: [blocked] }, blocked, plan, () => um(100))
    expect(mains.map(({ ball }) => ball)).not.toContain(route.ball)
    // The block is 100 um wide, and no other neck leaves within that of this one.
    expect(withoutMain).toMatchObject([
      {
        ball: route.ball,
        net: route.net,
        layer: route.exitLayer,
        reason: 'too near',
        fault: { other: 'keep-out block', otherBall: null, rule: 'keep-out', needed: 0 },
      },
    ])
    // The middle of the trace runs into the block.
    expect(withoutMain[0]?.fault?.found).toBeCloseTo(um(-50), 12)
  })
})
