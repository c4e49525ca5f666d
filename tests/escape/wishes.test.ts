import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { NO_WISHES } from '../../src/board/escapeWishes.ts'
import type { EscapeWishes } from '../../src/board/escapeWishes.ts'
import type { Package } from '../../src/board/packages.ts'
import type { EscapePlan } from '../../src/escape/escape.ts'
import { planEscape } from '../../src/escape/planEscape.ts'
import { distanceBetweenPaths } from '../../src/routes/pathDistance.ts'
import type { Route } from '../../src/routes/route.ts'
import { boardOf, copperStack, netOf, packageOf, pairOf, square, um } from './fixtures.ts'
import { planFaults } from './planChecker.ts'
import { randomMaps } from './randomMaps.ts'
import { wished } from './randomWishes.ts'
import { wishFaults } from './wishFaults.ts'

const drawing = square(10, (row, column) => ((row * 3 + column) % 7 === 0 ? 'g' : 's'))
const plain = packageOf(drawing)
const names = plain.balls.filter(({ use }) => use === 'signal').map(({ name }) => name)

function planWith(wishes: Partial<EscapeWishes>): EscapePlan {
  const pack: Package = { ...plain, escape: { ...NO_WISHES, ...wishes } }
  const nets = names.map((name, index) => netOf(name, 'single', { matchGroup: `group ${index % 3}` }))
  const plan = planEscape(boardOf(pack, { stackup: copperStack(6), nets }), pack, 'through')
  expect(plan.check.faults).toEqual([])
  expect(plan.routes.length).toBeGreaterThan(names.length / 3)
  return plan
}

const exitOf = (plan: EscapePlan, net: string): number | undefined =>
  plan.routes.find((route) => route.net === net)?.exitLayer

describe('wishes for the escape of a package', () => {
  it('fill layers in the order asked for, and no others', () => {
    const plan = planWith({ layerOrder: [5, 3] })
    expect(plan.layers.map(({ layer }) => layer)).toEqual([5, 3])
    expect(new Set(plan.routes.map(({ exitLayer }) => exitLayer))).toEqual(new Set([5, 3]))
    expect(plan.layers[0]?.escaped).toBeGreaterThan(0)
  })

  it('let a net out through no side but its own', () => {
    const first = names.filter((_, index) => index % 5 === 0)
    const sides = ['top', 'right', 'bottom', 'left'] as const
    const exitSides = new Map(first.map((name, index) => [name, sides[index % 4] ?? 'top']))
    const bound = planWith({ exitSides }).routes.filter(({ net }) => exitSides.has(net))
    expect(bound.length).toBeGreaterThan(first.length / 2)
    for (const { net, leaves, path } of bound) {
      expect(leaves).toBe(exitSides.get(net))
      const { x = NaN, y = NaN } = path.at(-1) ?? {}
      const outward = { top: y, bottom: 0 - y, right: x, left: 0 - x }
      expect(outward[leaves]).toBe(Math.max(...Object.values(outward)))
    }
  })

  it('keep every trace out of an area', () => {
    const low = { x: um(-4500), y: um(-1000) }
    const high = { x: um(-2500), y: um(1500) }
    const area = { name: 'C7', layers: [1, 2, 3, 4, 5, 6], low, high }
    const inside = ({ path, width }: Route): boolean =>
      path.some((to, index) => {
        const from = path[index - 1] ?? to
        return Array.from({ length: 200 }, (_, step) => step / 199).some((share) => {
          const x = from.x + (to.x - from.x) * share
          const y = from.y + (to.y - from.y) * share
          const half = width / 2 - um(1)
          return x > low.x - half && x < high.x + half && y > low.y - half && y < high.y + half
        })
      })
    expect(planWith({}).routes.some(inside)).toBe(true)
    expect(planWith({ keepOuts: [area] }).routes.filter(inside)).toEqual([])
  })

  it('keep groups as far apart as asked on every layer', () => {
    const gap = um(400)
    const plan = planWith({ apart: [{ groups: ['group 0', 'group 1'], gap }] })
    const groupOf = new Map(names.map((name, index) => [name, index % 3]))
    const ofGroup = (group: number): Route[] => plan.routes.filter(({ net }) => groupOf.get(net) === group)
    const gaps = ofGroup(0).flatMap((one) =>
      ofGroup(1)
        .filter((other) => other.exitLayer === one.exitLayer)
        .map((other) => distanceBetweenPaths(one.path, other.path) - (one.width + other.width) / 2),
    )
    expect(gaps.length).toBeGreaterThan(0)
    expect(Math.min(...gaps)).toBeGreaterThanOrEqual(gap - um(1))
  })

  it('try nets of priority first on shallow layers, or on deep ones', () => {
    const first = names.filter((_, index) => index % 9 === 4)
    const mean = (plan: EscapePlan): number =>
      first.reduce((sum, net) => sum + (exitOf(plan, net) ?? 6), 0) / first.length
    const [shallow, usual, deep] = [
      planWith({ priority: [first] }),
      planWith({}),
      planWith({ priority: [first], priorityLayers: 'deep' }),
    ]
    expect(mean(shallow)).toBeLessThanOrEqual(mean(usual))
    expect(mean(deep)).toBeGreaterThan(mean(usual))
    expect(first.filter((net) => exitOf(deep, net) === 6).length).toBeGreaterThan(first.length / 2)
  })

  it('put a few nets of priority on the very last layer where it is deep ones that are asked for', () => {
    const first = names.filter((_, index) => index % 17 === 4)
    const plan = planWith({ priority: [first], priorityLayers: 'deep' })
    expect(first.map((net) => exitOf(plan, net))).toEqual(first.map(() => 6))
  })

  it('count no vias of nets that may yet leave from their lands in what a layer lets out at most', () => {
    const atMost = (layerOrder: number[]): number => planWith({ layerOrder }).layers[0]?.bound?.atMost ?? NaN
    // The same nets wait for layer 3; only where they cannot leave on layer 1 do all their vias stand there.
    expect(atMost([3, 1])).toBeGreaterThan(atMost([3, 5]))
    expect(atMost([3, 5, 1])).toBe(atMost([3, 1]))
  })

  it('lead both nets of a pair side by side through their side', () => {
    const pairs = names.flatMap((name, index) => {
      const next = names[index + 1]
      return index % 2 === 0 && next !== undefined ? [[name, next] as const] : []
    })
    const exitSides = new Map(pairs.flat().map((name) => [name, 'left' as const]))
    // Two traces of 75 um and three gaps of 100 um take 450 um of the 550 um between two vias.
    const wide = packageOf(drawing, { pitch: { x: um(1000), y: um(1000) } })
    const pack: Package = { ...wide, escape: { ...NO_WISHES, exitSides } }
    const nets = pairs.flatMap(([one, other]) => pairOf(one, other))
    const board = boardOf(pack, { stackup: copperStack(12), nets })
    const plan = planEscape(board, pack, 'through')
    expect(plan.check.faults).toEqual([])
    expect(wishFaults(board, pack, plan)).toEqual([])
    const coupled = plan.routes.filter(({ gap }) => gap !== null)
    expect(coupled.length).toBeGreaterThan(names.length / 3)
    for (const { net, exitLayer } of coupled) {
      const partner = nets.find(({ name }) => name === net)?.partner ?? ''
      expect(exitOf(plan, partner)).toBe(exitLayer)
    }
  })
})

/** Layers whose own account does not hold: more than waited, or more than any layout lets out. */
function boundFaults({ layers }: EscapePlan): string[] {
  return layers.flatMap(({ layer, bound }) =>
    bound !== null && bound.escaped > Math.min(bound.waiting, bound.atMost) ? [`layer ${layer}`] : [],
  )
}

/** Nets whose path names one point twice in a row: a stretch without length or direction. */
const standingStill = ({ routes }: EscapePlan): string[] =>
  routes.flatMap(({ ball, path }) =>
    path.some((to, index) => {
      const from = path[index - 1]
      return from !== undefined && Math.hypot(to.x - from.x, to.y - from.y) < 1e-9
    })
      ? [ball]
      : [],
  )

describe('plans of random ball maps with random wishes', () => {
  it('are clean, keep every wish that must hold, and let out no more than their bounds', () => {
    let escaped = 0
    let signals = 0
    fc.assert(
      fc.property(wished(randomMaps), ({ board, pack, technology }) => {
        const plan = planEscape(board, pack, technology)
        const viaOf = new Map(plan.supplies.map(({ ball, via }) => [ball, via.split(' + ')]))
        expect(plan.check.faults).toEqual([])
        expect(planFaults(board, pack, plan, ({ name }) => viaOf.get(name) ?? [])).toEqual([])
        expect(wishFaults(board, pack, plan)).toEqual([])
        expect(boundFaults(plan)).toEqual([])
        expect(standingStill(plan)).toEqual([])
        escaped += plan.routes.length
        signals += plan.routes.length + plan.unescaped.length
      }),
      { seed: 5, numRuns: 300, endOnFailure: true },
    )
    // An empty plan breaks no wish.
    expect(escaped).toBeGreaterThan(signals / 2)
  }, 60_000)
})
