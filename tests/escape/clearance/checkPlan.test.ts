import { describe, expect, it } from 'vitest'
import { checkPlan } from '../../../src/escape/clearance/checkPlan.ts'
import type { ClearanceCheck } from '../../../src/escape/escape.ts'
import { boardOf, packageOf, um } from '../fixtures.ts'
import {
  A,
  B,
  bone,
  copperOf,
  FAR,
  faultsOf,
  PADS_REMOVED,
  scene,
  trace,
  twoTraces,
  upright,
} from './plans.ts'
import type { Scene } from './plans.ts'

describe('checkPlan', () => {
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
        otherBall: B,
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

  it('does not compare what belongs to one net, however many balls it has', () => {
    const pack = packageOf(['sgg'], { pitch: FAR.pitch })
    const shared = pack.balls.map((ball) => ({ ...ball, net: 'GND' }))
    const crossing = copperOf(upright('0,0', 1, 0), trace('0,1', 1, [[-400, 0], [10_000, 0]])) // prettier-ignore
    expect(faultsOf({ board: boardOf(pack), pack: { ...pack, balls: shared }, plan: crossing })).toEqual([])
    expect(faultsOf({ board: boardOf(pack), pack, plan: crossing }).length).toBeGreaterThan(0)
  })

  it('takes the net of its route for that of a ball without one', () => {
    const pack = packageOf(['uu'], { pitch: FAR.pitch })
    const net = { net: 'CLOCK' }
    const crossing = copperOf(
      upright('0,0', 2, 0, net),
      { ...trace('0,1', 2, [[-400, 0], [400, 0]]), ...net }, // prettier-ignore
    )
    expect(faultsOf({ board: boardOf(pack), pack, plan: crossing })).toEqual([])
  })

  it('takes balls without a net for different nets', () => {
    const pack = packageOf(['uu'], { pitch: FAR.pitch })
    const crossing = copperOf(bone('0,0', [0, 0], [100, 100]), bone('0,1', [100, 0], [0, 100]))
    expect(faultsOf({ board: boardOf(pack), pack, plan: crossing })).toHaveLength(1)
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
    expect(check.faults).toHaveLength(200)
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
})
