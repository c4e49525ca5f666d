import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Ball, Package } from '../../../src/board/packages.ts'
import { checkPlan } from '../../../src/escape/clearance/checkPlan.ts'
import type { PlanCopper } from '../../../src/escape/clearance/planCopper.ts'
import type { ClearanceCheck } from '../../../src/escape/escape.ts'
import type { Point } from '../../../src/units/quantity.ts'
import type { Scene } from './plans.ts'
import { LAYERS, nameless, scenes, SIZE } from './randomScenes.ts'

const SEED = 20261125

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
