import { describe, expect, it } from 'vitest'
import type { Board } from '../../src/board/board.ts'
import { checkMains } from '../../src/escape/clearance/checkMains.ts'
import type { EscapePlan, MainStart } from '../../src/escape/escape.ts'
import { keptMains } from '../../src/escape/keptMains.ts'
import type { KeptMains } from '../../src/escape/keptMains.ts'
import { planEscape } from '../../src/escape/planEscape.ts'
import { at, trace, wishing } from './clearance/plans.ts'
import { boardOf, netClass, packageOf, pairOf, um } from './fixtures.ts'

/** Balls 10 mm apart in a row, so that nothing stands near what a test draws between them. */
const pack = packageOf(['sssss'], { pitch: { x: um(10_000), y: um(10_000) } })
const [A, B, C, D, E] = ['0,0', '0,1', '0,2', '0,3', '0,4']

/** A neck of 80 um up to y = 0 at each x in um, and above it a main route of 100 um. */
function drawn(
  places: Readonly<Record<string, number>>,
  gap: number | null = null,
): { plan: EscapePlan; starts: MainStart[] } {
  const entries = Object.entries(places)
  const routes = entries.map(
    ([ball, x]) =>
    trace(ball, 3, [[x, -300], [x, 0]], { gap: gap === null ? null : um(gap) }), // prettier-ignore
  )
  const starts = entries.map(([ball, x]) => start(ball, x))
  return {
    plan: { ...planEscape(boardOf(pack), pack, 'through'), routes, supplies: [], dogBones: [] },
    starts,
  }
}

function start(ball: string, x: number, from = 0, to = 400): MainStart {
  return { ball, layer: 3, runOn: [], runOnLength: 0, width: um(100), path: [at(x, from), at(x, to)] }
}

function kept(plan: EscapePlan, starts: readonly MainStart[], board: Board = boardOf(pack)): KeptMains {
  return keptMains(board, board.packages[0] ?? pack, plan, starts)
}

const balls = ({ kept: found }: KeptMains): string[] => found.map(({ ball }) => ball)

/** Centre lines of main routes 100 um wide stand 200 um apart at 100 um of gap; necks 80 um wide 180 um. */
describe('main routes that can stand together', () => {
  it('all do with the gap between them, and one of two without', () => {
    const { plan, starts } = drawn({ [A]: 3000, [B]: 3200 })
    expect(balls(kept(plan, starts))).toEqual([A, B])
    const near = drawn({ [A]: 3000, [B]: 3190 })
    const { faults, ...rest } = kept(near.plan, near.starts)
    expect(balls({ faults, ...rest })).toEqual([A])
    expect([...faults.keys()]).toEqual([B])
    expect(faults.get(B)).toMatchObject({ layer: 3, ball: B, other: `main route of ${A}`, otherBall: A })
    expect(faults.get(B)?.found).toBeCloseTo(um(90), 12)
    expect(faults.get(B)?.needed).toBe(um(100))
  })

  it('leave out the one between two rather than those two', () => {
    const { plan, starts } = drawn({ [A]: 3000, [B]: 3190, [C]: 3380 })
    const found = kept(plan, starts)
    expect(balls(found)).toEqual([A, C])
    expect([...found.faults.keys()]).toEqual([B])
  })

  it('leave out every other one of a row, the second and the fourth of five', () => {
    const { plan, starts } = drawn({ [A]: 3000, [B]: 3190, [C]: 3380, [D]: 3570, [E]: 3760 })
    expect(balls(kept(plan, starts))).toEqual([A, C, E])
    expect(balls(kept(plan, starts.toReversed())).toSorted()).toEqual([A, C, E])
  })

  it('leave out none for one that goes by itself', () => {
    const { plan, starts } = drawn({ [A]: 3000, [B]: 3190, [C]: 3380 })
    const block = { name: 'block', layers: [3], low: at(3180, 200), high: at(3200, 300) }
    const blocked = wishing({ keepOuts: [block] }, pack)
    const found = kept(plan, starts, boardOf(blocked))
    expect(balls(found)).toEqual([A, C])
    expect(found.faults.get(B)).toMatchObject({ rule: 'keep-out', other: 'keep-out block', otherBall: null })
  })

  it('leave out the one that comes too near to a neck, not the main route of that neck', () => {
    const { plan } = drawn({ [A]: 3000, [B]: 3400 })
    // That of A begins beside the neck of B, on the far side of the beginning of B.
    const found = kept(plan, [start(A, 3240, -290, -200), start(B, 3400)])
    expect(balls(found)).toEqual([B])
    expect(found.faults.get(A)).toMatchObject({ other: `trace of ${B}`, otherBall: B, needed: um(100) })
    expect(found.faults.get(A)?.found).toBeCloseTo(um(160 - 90), 12)
  })

  it('tell of several faults the one that misses most', () => {
    const { plan } = drawn({ [A]: 3000, [B]: 3400, [C]: 3090 })
    const found = kept(plan, [start(A, 3240, -290, -200)])
    expect(found.faults.size).toBe(1)
    expect(found.faults.get(A)?.otherBall).toBe(C)
    expect(found.faults.get(A)?.found).toBeCloseTo(um(150 - 90), 12)
  })
})

describe('the main routes of a pair', () => {
  const pair = (main: number | null): Board =>
    boardOf(pack, {
      classes: [
        netClass('pair', {
          structure: 'pair',
          neck: { width: um(80), gap: um(120) },
          main: { width: null, gap: main === null ? null : um(main), length: null, coplanarGap: null },
        }),
      ],
      nets: pairOf(A, B),
    })
  const faultsAt = (between: number, main: number | null, gap: number | null = 120): number => {
    const { plan, starts } = drawn({ [A]: 3000, [B]: 3100 + between }, gap)
    return checkMains(pair(main), pack, plan, starts, 'each other').length
  }

  it('keep the gap between them where it is less than that of the necks', () => {
    expect([faultsAt(105, 105), faultsAt(104, 105), faultsAt(119, null)]).toEqual([0, 1, 1])
  })

  it('may come no nearer than the fabricator allows, and keep the full gap where the necks are apart', () => {
    expect([faultsAt(99, 60), faultsAt(100, 60)]).toEqual([1, 0])
    expect([faultsAt(119, 105, null), faultsAt(120, 105, null)]).toEqual([1, 0])
  })
})
