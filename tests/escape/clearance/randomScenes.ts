import fc from 'fast-check'
import { NO_WISHES } from '../../../src/board/escapeWishes.ts'
import type { ClearanceCheck } from '../../../src/escape/escape.ts'
import { boardOf, copperStack, netOf, packageOf, pairOf, um, via } from '../fixtures.ts'
import { at, bone, trace } from './plans.ts'
import type { Places, Scene } from './plans.ts'

export const SIZE = 4
export const LAYERS = 4

const place = fc.integer({ min: -2200, max: 2200 })

/** Plans that no planner would make: traces, dog-bones and vias anywhere, a few of them clear of each other. */
export const scenes: fc.Arbitrary<Scene> = fc
  .record({
    letters: fc.array(fc.constantFrom('s', 's', 's', 'g', 'p', 'u', '.'), { minLength: 16, maxLength: 16 }),
    paths: fc.array(fc.array(fc.tuple(place, place), { minLength: 1, maxLength: 4 }), {
      minLength: 16,
      maxLength: 16,
    }),
    layers: fc.array(fc.integer({ min: 1, max: LAYERS }), { minLength: 16, maxLength: 16 }),
    bones: fc.array(fc.tuple(place, place), { minLength: 16, maxLength: 16 }),
    width: fc.integer({ min: 50, max: 200 }),
    gap: fc.option(fc.integer({ min: 60, max: 1500 })),
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

/** A fault without the distance, which rounds otherwise from another side. */
export function nameless({ found: _, ...fault }: ClearanceCheck['faults'][number]): unknown {
  return fault
}
