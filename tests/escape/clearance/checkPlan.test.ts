import { describe, expect, it } from 'vitest'
import type { EscapeWishes } from '../../../src/board/escapeWishes.ts'
import { NO_WISHES } from '../../../src/board/escapeWishes.ts'
import { checkPlan, MOST_FAULTS } from '../../../src/escape/clearance/checkPlan.ts'
import type { ClearanceCheck, ClearanceFault } from '../../../src/escape/escape.ts'
import { boardOf, fabrication, netClass, netOf, packageOf, pairOf, um, via } from '../fixtures.ts'
import { at, bone, copperOf, trace, upright } from './plans.ts'
import type { Scene } from './plans.ts'

/** Three signal balls at x = −10, 0 and 10 mm: lands do not get in the way of what a test draws elsewhere. */
const FAR = packageOf(['sss'], { pitch: { x: um(10_000), y: um(10_000) } })
const [A, B] = ['0,0', '0,2']
const both = (value: number): { outer: number; inner: number } => ({ outer: um(value), inner: um(value) })

function faultsOf({ board, pack, plan }: Scene): readonly ClearanceFault[] {
  return checkPlan(board, pack, plan).faults
}

function scene(plan: Scene['plan'], board: Parameters<typeof boardOf>[1] = {}, pack = FAR): Scene {
  return { board: boardOf(pack, board), pack, plan }
}

function wishing(wishes: Partial<EscapeWishes>, pack = FAR): typeof FAR {
  return { ...pack, escape: { ...NO_WISHES, ...wishes } }
}

/** Two traces of the given gap in um from edge to edge, each 80 um wide. */
function twoTraces(
  gap: number,
  layer: number,
  board: Parameters<typeof boardOf>[1],
  ...coupled: number[]
): Scene {
  const [mine, theirs] = coupled
  return scene(
    copperOf(
      upright(A, layer, 3000, { gap: mine === undefined ? null : um(mine) }),
      upright(B, layer, 3080 + gap, { gap: theirs === undefined ? null : um(theirs) }),
    ),
    board,
  )
}

const classes = (gapA: number | null, gapB: number | null): Parameters<typeof boardOf>[1] => ({
  classes: [
    netClass('a', { neck: { width: null, gap: gapA === null ? null : um(gapA) } }),
    netClass('b', { neck: { width: null, gap: gapB === null ? null : um(gapB) } }),
  ],
  nets: [netOf(A, 'a'), netOf(B, 'b')],
})

const pairWithGap = (gap: number): Parameters<typeof boardOf>[1] => ({
  classes: [netClass('pair', { structure: 'pair', neck: { width: null, gap: um(gap) } })],
  nets: pairOf(A, B),
})

/** A via of 450 um pad and 200 um drill at x = 3 mm that leaves to the left, and a trace to its right. */
function viaAndTrace(gap: number, radius: number, layer: number, vias: Parameters<typeof boardOf>[1]): Scene {
  const left = trace(A, 5, [[3000, 0], [1000, 0]], { via: 'through' }) // prettier-ignore
  return scene(copperOf(left, upright(B, layer, 3000 + radius + gap + 40)), vias)
}

const PADS_REMOVED = { vias: [via('through', { unconnectedInnerPads: 'removed' })] }

/** Each rule by itself: what it asks in um, and the copper whose distance from edge to edge is `gap` um. */
const RULES: readonly (readonly [string, ClearanceFault['rule'], number, (gap: number) => Scene])[] = [
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

describe('checkPlan', () => {
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

  it('takes the tolerance of the board: none leaves none', () => {
    const analysis = { ...boardOf(FAR).analysis, comparisonTolerance: 0 }
    expect(faultsOf(twoTraces(100, 2, { analysis }))).toEqual([])
    expect(faultsOf(twoTraces(100 - 1e-6, 2, { analysis }))).toHaveLength(1)
  })

  it('lets copper touch copper under no tolerance', () => {
    const analysis = { ...boardOf(FAR).analysis, comparisonTolerance: um(1000) }
    expect(faultsOf(twoTraces(1e-6, 2, { analysis }))).toEqual([])
    expect(faultsOf(twoTraces(0, 2, { analysis }))).toHaveLength(1)
  })

  it.each([
    [3, 4, 5],
    [5, 12, 13],
    [20, 21, 29],
  ])('measures slanting distances exactly: sides %d and %d make %d', (a, b, c) => {
    // The second trace starts on the normal to the first, so that the centre lines are 179.5 um apart: 99.5 from edge to edge.
    const step = 179.5 / c
    const slanting = (nudge: number): Scene =>
      scene(
        copperOf(
          trace(A, 2, [[-9 * a, -9 * b], [9 * a, 9 * b]]), // prettier-ignore
          trace(B, 2, [[-b * step + nudge, a * step], [-b * step * 5, a * step * 5]]), // prettier-ignore
        ),
      )
    // A grid step on the way across is c / b times as much along x; steps that do not lie on the grid round to it.
    expect(faultsOf(slanting(-2e-6))).toEqual([])
    expect(faultsOf(slanting(2e-6))).toHaveLength(1)
  })

  it('finds a slanting distance on the grid neither too near by itself nor far enough a step on', () => {
    const analysis = { ...boardOf(FAR).analysis, comparisonTolerance: 0 }
    // 3² + 4² = 5²: points 108 and 144 um from the line’s, along its normal, are 180 um away.
    const slanting = (nudge: number): Scene =>
      scene(
        copperOf(
          trace(A, 2, [[-400, -300], [400, 300]]), // prettier-ignore
          trace(B, 2, [[-108 + nudge, 144], [-216, 288]]), // prettier-ignore
        ),
        { analysis },
      )
    expect(faultsOf(slanting(0))).toEqual([])
    expect(faultsOf(slanting(1e-6))).toHaveLength(1)
  })

  it('finds pads that touch, and lets those be that a picometre parts', () => {
    const pads = (gap: number): Scene => {
      const one = trace(A, 5, [[3000, 0]], { via: 'through' })
      return scene(copperOf(one, trace(B, 7, [[3450 + gap, 0]], { via: 'through' })), PADS_REMOVED)
    }
    expect(faultsOf(pads(1e-6))).toEqual([])
    // Both have pads at the ends of their holes; where only one has, nothing touches.
    expect(faultsOf(pads(0))).toEqual(
      [1, 12].map((layer) => ({
        layer,
        ball: A,
        other: `via pad of ${B}`,
        rule: 'pad to pad',
        found: 0,
        needed: 0,
      })),
    )
  })

  it('finds a via pad on the land of another net', () => {
    const near = (gap: number): Scene =>
      scene(copperOf(trace(A, 5, [[10_000 - 425 - gap, 0]], { via: 'through' })))
    expect(faultsOf(near(1e-6))).toEqual([])
    const [fault, ...others] = faultsOf(near(-20))
    expect(others).toEqual([])
    expect(fault).toMatchObject({ layer: 1, ball: A, other: `land of ${B}`, rule: 'pad to pad', needed: 0 })
    expect(fault?.found).toBeCloseTo(um(-20), 15)
  })

  it('leaves lands that touch each other to the description of the package', () => {
    const crowded = packageOf(['ss', 'ss'], { landDiameter: um(900), maskOpening: um(950) })
    expect(faultsOf(scene(copperOf(), {}, crowded))).toEqual([])
  })

  it('finds traces that cross, however thin, and tells how far they overlap', () => {
    const across = trace(B, 2, [[-400, 10], [400, 20]], { width: um(0.001) }) // prettier-ignore
    const [fault] = faultsOf(scene(copperOf(upright(A, 2, 0, { width: um(0.001) }), across)))
    expect(fault).toMatchObject({ layer: 2, ball: A, other: `trace of ${B}`, rule: 'trace to trace' })
    expect(fault?.found).toBeCloseTo(um(-0.001), 15)
    expect(faultsOf(scene(copperOf(upright(A, 2, 0), { ...across, exitLayer: 3 })))).toEqual([])
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

  it('does not compare what belongs to one net, however many balls it has', () => {
    const pack = packageOf(['sgg'], { pitch: FAR.pitch })
    const shared = pack.balls.map((ball) => ({ ...ball, net: 'GND' }))
    const crossing = copperOf(upright('0,0', 1, 0), trace('0,1', 1, [[-400, 0], [10_000, 0]])) // prettier-ignore
    expect(faultsOf({ board: boardOf(pack), pack: { ...pack, balls: shared }, plan: crossing })).toEqual([])
    expect(faultsOf({ board: boardOf(pack), pack, plan: crossing }).length).toBeGreaterThan(0)
  })

  it('takes balls without a net for different nets', () => {
    const pack = packageOf(['uu'], { pitch: FAR.pitch })
    const crossing = copperOf(bone('0,0', [0, 0], [100, 100]), bone('0,1', [100, 0], [0, 100]))
    expect(faultsOf({ board: boardOf(pack), pack, plan: crossing })).toHaveLength(1)
  })

  it('keeps traces of groups apart, not their dog-bones, nor traces within a group', () => {
    const nets = (one: string, other: string): Parameters<typeof boardOf>[1] => ({
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

  it('names one fault for two traces that come too near in many places, where they are nearest', () => {
    const zigzag = Array.from({ length: 20 }, (_, index) => [
      index % 2 === 0 ? 150 : 120 + index,
      index * 40 - 300,
    ])
    const wavy = trace(B, 2, zigzag.map(([x = 0, y = 0]) => [x, y] as const)) // prettier-ignore
    const faults = faultsOf(scene(copperOf(upright(A, 2, 0), wavy)))
    expect(faults).toHaveLength(1)
    expect(faults[0]?.found).toBeCloseTo(um(121 - 80), 15)
  })

  it('measures from where a ball is, on its grid or not', () => {
    const pack = packageOf(['ss'], { pitch: FAR.pitch })
    const [first, second] = pack.balls
    if (first === undefined || second === undefined) throw new RangeError('the package has two balls')
    const moved = { ...pack, onGrid: false, balls: [first, { ...second, x: um(1234.567), y: um(-77.7) }] }
    const beside = (gap: number): Scene =>
      scene(copperOf(upright('0,0', 1, 1234.567 - 200 - 40 - gap)), {}, moved)
    expect(faultsOf(beside(99.5))).toEqual([])
    expect(faultsOf(beside(99.499))).toMatchObject([{ other: 'land of 0,1', rule: 'trace to pad' }])
  })

  it('finds lands and dog-bones of a package on the far side on the last layer', () => {
    const bottom = { ...FAR, placement: { ...FAR.placement, side: 'bottom' as const } }
    const beside = (layer: number): Scene =>
      scene(copperOf(upright(A, layer, 9750), bone(B, [9650, 0], [9300, 0])), {}, bottom)
    expect(faultsOf(beside(1))).toEqual([])
    expect(faultsOf(beside(12)).map(({ layer, rule }) => [layer, rule])).toEqual([
      [12, 'trace to trace'],
      [12, 'trace to pad'],
      [12, 'mask opening to trace'],
    ])
  })

  it('tells no more faults than one can read, and counts all that it compared', () => {
    const pack = packageOf(['s'.repeat(30)])
    const row = Array.from({ length: 30 }, (_, index) => upright(`0,${index}`, 2, index))
    const check = checkPlan(boardOf(pack), pack, copperOf(...row))
    expect(check.compared).toBe((30 * 29) / 2)
    expect(check.faults).toHaveLength(MOST_FAULTS)
    expect(check.faults[0]).toMatchObject({ ball: '0,0', other: 'trace of 0,1' })
  })

  it('finds nothing in an empty plan', () => {
    expect(checkPlan(boardOf(FAR), FAR, copperOf())).toEqual({
      compared: 0,
      faults: [],
    } satisfies ClearanceCheck)
  })

  it.each([
    ['a ball that does not exist', copperOf(upright('9,9', 2, 0)), /no ball of U1 called 9,9/],
    ['a via that does not exist', copperOf(upright(A, 2, 0, { via: 'through + none' })), /no via none/],
    ['a path without a point', copperOf(trace(A, 2, [])), /route of ball 0,0 has no point/],
    ['a width that is no number', copperOf(upright(A, 2, 0, { width: NaN })), /got NaN m/],
  ])('refuses %s', (_, plan, message) => {
    expect(() => checkPlan(boardOf(FAR), FAR, plan)).toThrow(RangeError)
    expect(() => checkPlan(boardOf(FAR), FAR, plan)).toThrow(message)
  })

  it('takes the outer figure of a rule on the layer opposite the package too', () => {
    const board = { fabrication: fabrication({ traceToPad: both(180) }) }
    expect(faultsOf(viaAndTrace(179.5, 225, 12, board))).toEqual([])
    expect(faultsOf(viaAndTrace(179.4, 225, 12, board))).toHaveLength(1)
  })
})
