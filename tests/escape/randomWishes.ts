import fc from 'fast-check'
import type { Board } from '../../src/board/board.ts'
import { NO_WISHES } from '../../src/board/escapeWishes.ts'
import type { EscapeWishes, ExitSide, KeepOut } from '../../src/board/escapeWishes.ts'
import type { Package } from '../../src/board/packages.ts'
import { um } from './fixtures.ts'

const SIDES: readonly ExitSide[] = ['top', 'bottom', 'left', 'right']
/** Nets fall into these in turn, two by two, so that the nets of a pair are in one. */
const GROUPS = ['group 0', 'group 1', 'group 2'] as const

const wishes = fc.record({
  layers: fc.shuffledSubarray([1, 2, 3, 4, 5, 6]),
  priority: fc.option(fc.integer({ min: 1, max: 9 })),
  priorityLayers: fc.constantFrom('shallow' as const, 'deep' as const),
  /** One pair of nets in so many has a side. */
  sided: fc.option(fc.integer({ min: 1, max: 4 })),
  areas: fc.array(
    fc.record({
      layers: fc.subarray([1, 2, 3, 4, 5, 6], { minLength: 1 }),
      x: fc.integer({ min: -7000, max: 7000 }),
      y: fc.integer({ min: -7000, max: 7000 }),
      width: fc.integer({ min: 1, max: 4000 }),
      height: fc.integer({ min: 1, max: 4000 }),
    }),
    { maxLength: 4 },
  ),
  gaps: fc.array(fc.integer({ min: 1, max: 900 }), { maxLength: 3 }),
})

type Draft = typeof wishes extends fc.Arbitrary<infer T> ? T : never

/** The same random boards with random wishes that go with them. */
export function wished<T extends { readonly board: Board; readonly pack: Package }>(
  boards: fc.Arbitrary<T>,
): fc.Arbitrary<T> {
  return fc.tuple(boards, wishes).map(([each, draft]): T => ({ ...each, ...withWishes(each, draft) }))
}

function withWishes(
  { board, pack }: { readonly board: Board; readonly pack: Package },
  draft: Draft,
): { board: Board; pack: Package } {
  const count = board.stackup.copper.length
  const onBoard = (layers: readonly number[]): number[] => layers.filter((layer) => layer <= count)
  const nets: Board['nets'] = board.nets.map((net, index) => ({
    ...net,
    matchGroup: GROUPS[(index >> 1) % 3] ?? null,
  }))
  const every = (step: number | null): string[] =>
    nets.filter((_, index) => step !== null && (index >> 1) % step === 0).map(({ name }) => name)
  const sideOf = new Map(nets.map(({ name }, index) => [name, SIDES[(index >> 2) % 4] ?? 'top']))
  const pairs = [
    [GROUPS[0], GROUPS[1]],
    [GROUPS[1], GROUPS[2]],
    [GROUPS[0], GROUPS[2]],
  ] as const
  const first = every(draft.priority)
  const escape: EscapeWishes = {
    ...NO_WISHES,
    layerOrder: onBoard(draft.layers),
    priority: first.length === 0 ? [] : [first],
    priorityLayers: draft.priorityLayers,
    exitSides: new Map(every(draft.sided).map((name) => [name, sideOf.get(name) ?? 'top'])),
    keepOuts: draft.areas.flatMap(({ layers, x, y, width, height }, index): KeepOut[] => [
      {
        name: `area ${index}`,
        layers: onBoard(layers),
        low: { x: um(x), y: um(y) },
        high: { x: um(x + width), y: um(y + height) },
      },
    ]),
    apart: draft.gaps.map((gap, index) => ({ groups: pairs[index] ?? pairs[0], gap: um(gap) })),
  }
  const asked = { ...pack, escape }
  return { board: { ...board, nets, packages: [asked] }, pack: asked }
}
