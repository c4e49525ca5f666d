import { describe, expect, it } from 'vitest'
import type { Board } from '../../../src/board/board.ts'
import type { ClearanceFault } from '../../../src/escape/escape.ts'
import { fabrication, netClass, netOf, pairOf, um } from '../fixtures.ts'
import {
  A,
  at,
  B,
  bone,
  copperOf,
  faultsOf,
  PADS_REMOVED,
  scene,
  trace,
  twoTraces,
  upright,
  viaAndTrace,
  wishing,
} from './plans.ts'
import type { Scene } from './plans.ts'

const both = (value: number): { outer: number; inner: number } => ({ outer: um(value), inner: um(value) })

const classes = (gapA: number | null, gapB: number | null): Partial<Board> => ({
  classes: [
    netClass('a', { neck: { width: null, gap: gapA === null ? null : um(gapA) } }),
    netClass('b', { neck: { width: null, gap: gapB === null ? null : um(gapB) } }),
  ],
  nets: [netOf(A, 'a'), netOf(B, 'b')],
})

const pairWithGap = (gap: number): Partial<Board> => ({
  classes: [netClass('pair', { structure: 'pair', neck: { width: null, gap: um(gap) } })],
  nets: pairOf(A, B),
})

type Rule = readonly [string, ClearanceFault['rule'], number, (gap: number) => Scene]

/** Each rule by itself: what it asks in um, and the copper whose distance from edge to edge is `gap` um. */
const RULES: readonly Rule[] = [
  ['trace to trace on an inner layer', 'trace to trace', 100, (gap) => twoTraces(gap, 2, {})],
  [
    'trace to trace on an outer layer',
    'trace to trace',
    120,
    (gap) =>
      twoTraces(gap, 12, { fabrication: fabrication({ traceGap: { outer: um(120), inner: um(100) } }) }),
  ],
  [
    'the gap of the class that asks for more',
    'trace to trace',
    160,
    (gap) => twoTraces(gap, 2, classes(90, 160)),
  ],
  [
    'the fabricator’s gap where it is more',
    'trace to trace',
    100,
    (gap) => twoTraces(gap, 2, classes(null, 70)),
  ],
  ['two classes that may come nearer', 'trace to trace', 60, (gap) => twoTraces(gap, 2, classes(60, 50))],
  ['the gap inside a pair', 'trace to trace', 130, (gap) => twoTraces(gap, 2, pairWithGap(110), 150, 130)],
  [
    'a pair of which one route has a gap',
    'trace to trace',
    150,
    (gap) => twoTraces(gap, 2, pairWithGap(110), 150),
  ],
  [
    'a pair that does not run side by side',
    'trace to trace',
    110,
    (gap) => twoTraces(gap, 2, pairWithGap(110)),
  ],
  [
    'a gap inside a pair that the class asks more for and the fabricator does not allow',
    'trace to trace',
    100,
    (gap) => twoTraces(gap, 2, pairWithGap(110), 20, 20),
  ],
  ...[0, 1].map((faithless): Rule => [
    `a pair of which net ${faithless} does not know its partner`,
    'trace to trace',
    110,
    (gap) => {
      const nets = pairOf(A, B).map((net, index) => (index === faithless ? { ...net, partner: null } : net))
      return twoTraces(gap, 2, { ...pairWithGap(110), nets }, 102, 102)
    },
  ]),
  [
    'trace to trace on the layer of the lands',
    'trace to trace',
    120,
    (gap) =>
      twoTraces(gap, 1, { fabrication: fabrication({ traceGap: { outer: um(120), inner: um(100) } }) }),
  ],
  [
    'a gap inside a pair that neither class nor fabricator allows',
    'trace to trace',
    90,
    (gap) => twoTraces(gap, 2, pairWithGap(90), 20, 20),
  ],
  [
    'trace to the pad at the end of a hole',
    'trace to pad',
    100,
    (gap) => viaAndTrace(gap, 225, 12, PADS_REMOVED),
  ],
  ['trace to a pad that is kept', 'trace to pad', 100, (gap) => viaAndTrace(gap, 225, 3, {})],
  [
    'trace to the pad where a net is joined',
    'trace to pad',
    100,
    (gap) => viaAndTrace(gap, 225, 5, PADS_REMOVED),
  ],
  [
    'trace to pad by the figure of the layer',
    'trace to pad',
    140,
    (gap) =>
      viaAndTrace(gap, 225, 3, {
        fabrication: fabrication({ traceToPad: { outer: um(100), inner: um(140) } }),
      }),
  ],
  [
    'drill to copper where the pad is removed',
    'drill to copper',
    150,
    (gap) => viaAndTrace(gap, 100, 3, PADS_REMOVED),
  ],
  [
    'drill to copper beyond a small pad',
    'drill to copper',
    300,
    (gap) => viaAndTrace(gap, 100, 3, { fabrication: fabrication({ drillToCopper: um(300) }) }),
  ],
  ['trace to land', 'trace to pad', 100, (gap) => scene(copperOf(upright(A, 1, 10_000 - 200 - gap - 40)))],
  [
    'mask opening to trace',
    'mask opening to trace',
    90,
    (gap) =>
      scene(copperOf(upright(A, 1, 10_000 - 225 - gap - 40)), {
        fabrication: fabrication({ maskOpeningToTrace: um(90) }),
      }),
  ],
  [
    'trace to dog-bone',
    'trace to trace',
    100,
    (gap) => scene(copperOf(upright(A, 1, 3000), bone(B, [3080 + gap, 0], [3200 + gap, 120]))),
  ],
  [
    'dog-bone to dog-bone',
    'trace to trace',
    100,
    (gap) => scene(copperOf(bone(A, [2500, 0], [3000, 500]), bone(B, [3080 + gap, 500], [3500, 900]))),
  ],
  ['dog-bone to land', 'trace to pad', 100, (gap) => scene(copperOf(bone(A, [9000, 0], [9760 - gap, 0])))],
  [
    'dog-bone to via pad',
    'trace to pad',
    100,
    (gap) =>
      scene(
        copperOf(trace(A, 5, [[3000, 0]], { via: 'through' }), bone(B, [3265 + gap, 0], [3800, 0])), // prettier-ignore
      ),
  ],
  [
    'trace to keep-out',
    'keep-out',
    0,
    (gap) => {
      const keepOuts = [{ name: 'capacitors', layers: [2], low: at(2000, 0), high: at(2500, 90) }]
      return scene(copperOf(upright(A, 2, 2540 + gap)), {}, wishing({ keepOuts }))
    },
  ],
  [
    'groups that are kept apart',
    'trace to trace',
    300,
    (gap) => {
      const nets = [netOf(A, 'single', { matchGroup: 'upper' }), netOf(B, 'single', { matchGroup: 'lower' })]
      const apart = [{ groups: ['lower', 'upper'] as const, gap: um(300) }]
      return { ...twoTraces(gap, 2, { nets }), pack: wishing({ apart }) }
    },
  ],
]

describe('the clearance that is asked', () => {
  it.each(RULES)('keeps to the very limit: %s', (_, rule, needed, draw) => {
    // The boards' comparison tolerance is 0.5 um; one picometre beyond it is too near.
    expect(faultsOf(draw(needed - 0.5))).toEqual([])
    const near = needed - 0.5 - 1e-6
    const [fault, ...others] = faultsOf(draw(near))
    expect(others).toEqual([])
    expect(fault?.rule).toBe(rule)
    expect(Math.abs((fault?.found ?? NaN) - um(near))).toBeLessThan(1e-15)
    expect(Math.abs((fault?.needed ?? NaN) - um(needed))).toBeLessThan(1e-18)
  })

  it('finds a trace that lies wholly inside a keep-out, not a dog-bone, nor anything on another layer', () => {
    const keepOuts = [{ name: 'socket', layers: [1, 3], low: at(1000, -5000), high: at(5000, 5000) }]
    const inside = (layer: number): Scene =>
      scene(copperOf(upright(A, layer, 3000), bone(B, [2000, 0], [2050, 50])), {}, wishing({ keepOuts }))
    expect(faultsOf(inside(3))).toMatchObject([
      { layer: 3, ball: A, other: 'keep-out socket', rule: 'keep-out' },
    ])
    expect(faultsOf(inside(4))).toEqual([])
  })

  it('keeps traces of groups apart, not their dog-bones, nor traces within a group', () => {
    const nets = (one: string, other: string): Partial<Board> => ({
      nets: [netOf(A, 'single', { matchGroup: one }), netOf(B, 'single', { matchGroup: other })],
    })
    const pack = wishing({ apart: [{ groups: ['upper', 'lower'], gap: um(3000) }] })
    const faults = (one: string, other: string): number =>
      faultsOf({ ...twoTraces(2900, 2, nets(one, other)), pack }).length
    expect([faults('upper', 'lower'), faults('lower', 'upper')]).toEqual([1, 1])
    expect([faults('upper', 'upper'), faults('upper', 'third')]).toEqual([0, 0])
    const bones = copperOf(bone(A, [2000, 0], [2000, 90]), bone(B, [2400, 0], [2400, 90]))
    expect(faultsOf(scene(bones, nets('upper', 'lower'), pack))).toEqual([])
  })

  it('takes the outer figure of a rule on the layer opposite the package too', () => {
    const board = { fabrication: fabrication({ traceToPad: both(180) }) }
    expect(faultsOf(viaAndTrace(179.5, 225, 12, board))).toEqual([])
    expect(faultsOf(viaAndTrace(179.4, 225, 12, board))).toHaveLength(1)
  })
})
