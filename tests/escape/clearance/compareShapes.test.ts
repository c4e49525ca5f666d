import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Ball, Package } from '../../../src/board/packages.ts'
import { NO_WISHES } from '../../../src/board/escapeWishes.ts'
import { checkPlan } from '../../../src/escape/clearance/checkPlan.ts'
import { clearancesOn, limitBetween } from '../../../src/escape/clearance/clearances.ts'
import { compareShapes } from '../../../src/escape/clearance/compareShapes.ts'
import { GRID } from '../../../src/escape/clearance/gridUnits.ts'
import { eachNeighbour } from '../../../src/escape/clearance/neighbours.ts'
import type { EachPair } from '../../../src/escape/clearance/neighbours.ts'
import { Drawing } from '../../../src/escape/clearance/planCopper.ts'
import type { PlanCopper } from '../../../src/escape/clearance/planCopper.ts'
import { isBefore, nameOf } from '../../../src/escape/clearance/shape.ts'
import type { Shape } from '../../../src/escape/clearance/shape.ts'
import type { ClearanceCheck } from '../../../src/escape/escape.ts'
import type { Point } from '../../../src/units/quantity.ts'
import { boardOf, copperStack, netOf, packageOf, pairOf, um, via } from '../fixtures.ts'
import { at, bone, trace } from './plans.ts'
import type { Places, Scene } from './plans.ts'

const SEED = 20261125
const SIZE = 4
const LAYERS = 4

const everyPair: EachPair = (boxes, visit) => {
  for (const other of boxes.keys()) for (let one = 0; one < other; one++) visit(one, other)
}

const place = fc.integer({ min: -2200, max: 2200 })

/** Plans that no planner would make: traces, dog-bones and vias anywhere, a few of them clear of each other. */
const scenes: fc.Arbitrary<Scene> = fc
  .record({
    letters: fc.array(fc.constantFrom('s', 's', 's', 'g', 'p', 'u', '.'), { minLength: 16, maxLength: 16 }),
    paths: fc.array(fc.array(fc.tuple(place, place), { minLength: 1, maxLength: 4 }), {
      minLength: 16,
      maxLength: 16,
    }),
    layers: fc.array(fc.integer({ min: 1, max: LAYERS }), { minLength: 16, maxLength: 16 }),
    bones: fc.array(fc.tuple(place, place), { minLength: 16, maxLength: 16 }),
    width: fc.integer({ min: 50, max: 200 }),
    gap: fc.option(fc.integer({ min: 60, max: 150 })),
    apart: fc.integer({ min: 50, max: 900 }),
    pads: fc.constantFrom('kept' as const, 'removed' as const),
    area: fc.tuple(place, place, place, place),
  })
  .map((draft): Scene => {
    const drawing = Array.from({ length: SIZE }, (_, row) =>
      draft.letters.slice(row * SIZE, (row + 1) * SIZE).join(''),
    )
    const [x, y, u, v] = draft.area
    const pack = packageOf(drawing, {
      rows: SIZE,
      columns: SIZE,
      escape: {
        ...NO_WISHES,
        apart: [{ groups: ['even', 'odd'], gap: um(draft.apart) }],
        keepOuts: [
          {
            name: 'area',
            layers: [2, 3],
            low: at(Math.min(x, u), Math.min(y, v)),
            high: at(Math.max(x, u), Math.max(y, v)),
          },
        ],
      },
    })
    const signals = pack.balls.filter(({ use }) => use === 'signal')
    const nets = signals.flatMap(({ name }, index) => {
      const next = signals[index + 1]
      const change = { matchGroup: index % 4 < 2 ? 'even' : null }
      if (index % 4 === 0 && next !== undefined) return pairOf(name, next.name, 'pair', change)
      return index % 4 === 1 ? [] : [netOf(name, 'single', { matchGroup: 'odd' })]
    })
    const routes = signals.map(({ name }, index) => {
      const layer = draft.layers[index] ?? 1
      const path: Places = draft.paths[index] ?? []
      return trace(name, layer, path, {
        width: um(draft.width),
        via: layer === 1 ? null : 'through',
        gap: draft.gap === null ? null : um(draft.gap),
      })
    })
    const supplies = pack.balls
      .filter(({ use }) => use === 'power' || use === 'ground')
      .map(({ name }) => ({ ball: name, via: 'through', endLayer: 2 }))
    const dogBones = pack.balls.slice(0, 6).map((ball, index) => {
      const [toX, toY] = draft.bones[index] ?? [0, 0]
      return { ...bone(ball.name, [0, 0], [toX / 4, toY / 4]), from: { x: ball.x, y: ball.y } }
    })
    const stack = copperStack(LAYERS)
    const vias = [via('through', { lastLayer: LAYERS, unconnectedInnerPads: draft.pads })]
    return {
      board: boardOf(pack, { stackup: stack, vias, nets }),
      pack,
      plan: { routes, supplies, dogBones },
    }
  })

const layersOf = ({ board }: Scene): number[] => board.stackup.copper.map(({ number }) => number)

/** Distance from a point to a stretch by the lengths of the triangle’s sides. */
function fromStretch(px: number, py: number, { ax, ay, bx, by }: Shape): number {
  const base = Math.hypot(bx - ax, by - ay)
  const [toA, toB] = [Math.hypot(px - ax, py - ay), Math.hypot(px - bx, py - by)]
  if (base === 0 || toB ** 2 >= toA ** 2 + base ** 2) return toA
  if (toA ** 2 >= toB ** 2 + base ** 2) return toB
  return Math.abs((bx - ax) * (py - ay) - (by - ay) * (px - ax)) / base
}

/** Least distance of many points of one stretch from the other, and how much nearer points between them may be. */
function sampled(one: Shape, other: Shape): { distance: number; error: number } {
  const count = 400
  const length = Math.hypot(one.bx - one.ax, one.by - one.ay)
  let distance = Infinity
  for (let step = 0; step <= count; step++) {
    const share = step / count
    const [x, y] = [one.ax + share * (one.bx - one.ax), one.ay + share * (one.by - one.ay)]
    const there =
      other.kind === 'keep-out'
        ? Math.hypot(Math.max(other.ax - x, 0, x - other.bx), Math.max(other.ay - y, 0, y - other.by))
        : fromStretch(x, y, other)
    distance = Math.min(distance, there)
  }
  return { distance, error: length / count / 2 + 1 }
}

describe('comparing the shapes of a layer', () => {
  it('finds with its cells what comparing every pair finds, and counts the same', () => {
    fc.assert(
      fc.property(scenes, (scene) => {
        const drawing = new Drawing(scene.board, scene.pack, scene.plan)
        for (const layer of layersOf(scene)) {
          const shapes = drawing.shapesOn(layer)
          const clearances = clearancesOn(scene.board, scene.pack, layer)
          const found = compareShapes(shapes, clearances, layer, eachNeighbour)
          expect(found).toEqual(compareShapes(shapes, clearances, layer, everyPair))
        }
      }),
      { seed: SEED, numRuns: 120 },
    )
  })

  it('does not depend on the order of the shapes', () => {
    fc.assert(
      fc.property(scenes, (scene) => {
        const shapes = new Drawing(scene.board, scene.pack, scene.plan).shapesOn(1)
        const clearances = clearancesOn(scene.board, scene.pack, 1)
        const check = (list: readonly Shape[]): ClearanceCheck =>
          compareShapes(list, clearances, 1, eachNeighbour)
        const [there, back] = [check(shapes), check(shapes.toReversed())]
        expect(back.compared).toBe(there.compared)
        expect(back.faults.map(nameless)).toEqual(there.faults.map(nameless))
      }),
      { seed: SEED, numRuns: 60 },
    )
  })

  it('faults what dense points on the copper find too near, and nothing else', () => {
    let [near, undecided] = [0, 0]
    fc.assert(
      fc.property(scenes, (scene) => {
        const drawing = new Drawing(scene.board, scene.pack, scene.plan)
        for (const layer of layersOf(scene)) {
          const shapes = drawing.shapesOn(layer)
          const clearances = clearancesOn(scene.board, scene.pack, layer)
          const { faults } = compareShapes(shapes, clearances, layer, eachNeighbour)
          const named = new Set(faults.map(({ ball, other, rule }) => `${ball} | ${other} | ${rule}`))
          const surely = new Set<string>()
          const perhaps = new Set<string>()
          everyPair(shapes.map(boxOf), (first, second) => {
            const [one, other] = [shapes[first], shapes[second]]
            if (one === undefined || other === undefined || one.owner.net === other.owner.net) return
            const limit = limitBetween(clearances, one, other)
            if (limit === null) return
            const [line, object] = one.kind === 'keep-out' ? [other, one] : [one, other]
            const { distance, error } = sampled(line, object)
            const needed =
              one.radius + other.radius + (limit.needed - scene.board.analysis.comparisonTolerance) / GRID
            const atLeast = Math.max(needed, limit.rule === 'keep-out' ? 0 : one.radius + other.radius)
            const [subject, thing] = isBefore(one, other) ? [one, other] : [other, one]
            const name = `${subject.owner.name} | ${nameOf(thing)} | ${limit.rule}`
            if (distance < atLeast - 1) surely.add(name)
            if (distance - error < atLeast + 1) perhaps.add(name)
          })
          expect([...named].filter((name) => !perhaps.has(name))).toEqual([])
          expect([...surely].filter((name) => !named.has(name))).toEqual([])
          near += surely.size
          undecided += perhaps.size - surely.size
        }
      }),
      { seed: SEED, numRuns: 12 },
    )
    // The scenes hold hundreds of faults and few pairs that points cannot decide.
    expect(near).toBeGreaterThan(500)
    expect(undecided).toBeLessThan(near / 20)
  })
})

function boxOf({ ax, ay, bx, by }: Shape): { left: number; right: number; low: number; high: number } {
  return { left: Math.min(ax, bx), right: Math.max(ax, bx), low: Math.min(ay, by), high: Math.max(ay, by) }
}

function nameless({ found: _, ...fault }: ClearanceCheck['faults'][number]): unknown {
  return fault
}

/** The same package and plan, turned or mirrored. */
interface Turn {
  readonly point: (at: Point) => Point
  readonly ball: (ball: Ball) => Pick<Ball, 'row' | 'column'>
}

const TURNS: readonly (readonly [string, Turn])[] = [
  [
    'mirrored left to right',
    {
      point: ({ x, y }) => ({ x: 0 - x, y }),
      ball: ({ row, column }) => ({ row, column: SIZE - 1 - column }),
    },
  ],
  [
    'mirrored top to bottom',
    {
      point: ({ x, y }) => ({ x, y: 0 - y }),
      ball: ({ row, column }) => ({ row: SIZE - 1 - row, column }),
    },
  ],
  [
    'turned by a quarter',
    {
      point: ({ x, y }) => ({ x: 0 - y, y: x }),
      ball: ({ row, column }) => ({ row: SIZE - 1 - column, column: row }),
    },
  ],
]

function turned({ board, pack, plan }: Scene, turn: Turn): Scene {
  const balls = pack.balls.map((ball) => ({ ...ball, ...turn.ball(ball), ...turn.point(ball) }))
  const keepOuts = pack.escape.keepOuts.map((keepOut) => {
    const [one, other] = [turn.point(keepOut.low), turn.point(keepOut.high)]
    return {
      ...keepOut,
      low: { x: Math.min(one.x, other.x), y: Math.min(one.y, other.y) },
      high: { x: Math.max(one.x, other.x), y: Math.max(one.y, other.y) },
    }
  })
  const mapped: PlanCopper = {
    supplies: plan.supplies,
    routes: plan.routes.map((route) => ({ ...route, path: route.path.map(turn.point) })),
    dogBones: plan.dogBones.map((each) => ({
      ...each,
      from: turn.point(each.from),
      to: turn.point(each.to),
    })),
  }
  const changed: Package = { ...pack, balls, escape: { ...pack.escape, keepOuts } }
  return { board: { ...board, packages: [changed] }, pack: changed, plan: mapped }
}

describe('a plan and its mirror image', () => {
  it.each(TURNS)('have the same faults: %s', (_, turn) => {
    fc.assert(
      fc.property(scenes, (scene) => {
        const there = turned(scene, turn)
        const [before, after] = [
          checkPlan(scene.board, scene.pack, scene.plan),
          checkPlan(there.board, there.pack, there.plan),
        ]
        expect(after.compared).toBe(before.compared)
        expect(after.faults.map(nameless)).toEqual(before.faults.map(nameless))
        for (const [index, { found }] of after.faults.entries()) {
          expect(found).toBeCloseTo(before.faults[index]?.found ?? NaN, 14)
        }
      }),
      { seed: SEED, numRuns: 60 },
    )
  })

  it('have the same faults on the opposite layers where the package sits on the far side', () => {
    fc.assert(
      fc.property(scenes, ({ board, pack, plan }) => {
        const layer = (number: number): number => LAYERS + 1 - number
        const below: Package = {
          ...pack,
          placement: { ...pack.placement, side: 'bottom' },
          escape: {
            ...pack.escape,
            keepOuts: pack.escape.keepOuts.map((each) => ({ ...each, layers: each.layers.map(layer) })),
          },
        }
        const mapped: PlanCopper = {
          dogBones: plan.dogBones,
          supplies: plan.supplies.map((each) => ({ ...each, endLayer: layer(each.endLayer) })),
          routes: plan.routes.map((route) => ({ ...route, exitLayer: layer(route.exitLayer) })),
        }
        const before = checkPlan(board, pack, plan)
        const after = checkPlan({ ...board, packages: [below] }, below, mapped)
        expect(after.compared).toBe(before.compared)
        const onLayers = (check: ClearanceCheck, map: (number: number) => number): string[] =>
          check.faults
            .map((fault) => JSON.stringify({ ...fault, layer: map(fault.layer) }))
            .toSorted((a, b) => a.localeCompare(b))
        expect(onLayers(after, layer)).toEqual(onLayers(before, (number) => number))
      }),
      { seed: SEED, numRuns: 60 },
    )
  })
})
