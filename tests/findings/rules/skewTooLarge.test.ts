import { describe, expect, it } from 'vitest'
import type { Board } from '../../../src/board/board.ts'
import { skewTooLarge } from '../../../src/findings/rules/skewTooLarge.ts'
import type { Route } from '../../../src/routes/route.ts'
import { exampleBoard } from '../../board/exampleBoard.ts'
import { ps, route, withClass, withNet } from '../../signal/fixtures.ts'
import { contextOf, only, remedyOf } from '../fixtures.ts'

const base = withClass(await exampleBoard(), 'serial', { pairSkewLimit: ps(1) })
const pair = (first: number, second: number): Route[] => [
  route({ net: 'TX0_P', ball: 'C1', neckLength: first }),
  route({ net: 'TX0_N', ball: 'D1', neckLength: second }),
]
const findings = (board: Board, routes: readonly Route[]): ReturnType<typeof skewTooLarge> =>
  skewTooLarge(contextOf(board, { routes }))
const lengths = (board: Board, first: number | null, second: number | null): Board =>
  withNet(withNet(board, 'TX0_P', { mainLength: first }), 'TX0_N', { mainLength: second })
const routed = lengths(base, 40e-3, 40e-3)

describe('skew', () => {
  it('is an error above the limit of its class once the main lengths are given', () => {
    const finding = only(findings(routed, pair(3e-3, 3.5e-3)))
    expect(finding.severity).toBe('error')
    expect(finding.subject).toMatchObject({ kind: 'pair', name: 'TX0_P and TX0_N' })
    expect(finding.limit.value).toBe(ps(1))
  })

  it('is a note of what the main routes must take up before', () => {
    const finding = only(findings(lengths(base, null, null), pair(3e-3, 3.5e-3)))
    expect(finding.severity).toBe('note')
    expect(finding.measured.what).toMatch(/take up/)
  })

  it('is not found within the limit, nor without one', () => {
    expect(findings(routed, pair(3e-3, 3.1e-3))).toEqual([])
    expect(findings(withClass(routed, 'serial', { pairSkewLimit: null }), pair(3e-3, 3.5e-3))).toEqual([])
  })

  it('vanishes when the earlier main route is lengthened by what it proposes', () => {
    const { value, action, result } = remedyOf(only(findings(routed, pair(3e-3, 3.5e-3))), /lengthen/)
    expect(action).toMatch(/TX0_P/)
    expect(result.value).toBeLessThan(ps(0.0033)) // half a micron
    expect(findings(lengths(base, 40e-3 + value.value, 40e-3), pair(3e-3, 3.5e-3))).toEqual([])
  })

  it('of a group is what is left after all early nets are lengthened', () => {
    const limited = withClass(base, 'data', { groupSkewLimit: ps(4) })
    const bus = [0, 0.2e-3, 0.9e-3, 1e-3].map((more, index) =>
      route({ net: `DQ${index}`, ball: `A${index + 1}`, neckLength: 3e-3 + more }),
    )
    const finding = findings(limited, bus).find(({ subject }) => subject.kind === 'group')
    if (finding === undefined) throw new Error('not found')
    const { action, result } = remedyOf(finding, /lengthen/)
    expect(action).toMatch(/DQ0, and 1 more by less/)
    // DQ2 stays 0.1 mm behind DQ3 at about 6.4 ps/mm.
    expect(result.value).toBeCloseTo((0.1e-3 * Math.sqrt(3.7)) / 299_792_458, 16)
  })

  it('of breakouts alone is made up without regard to the main lengths that some already have', () => {
    const limited = withNet(withClass(base, 'data', { groupSkewLimit: ps(4) }), 'DQ1', { mainLength: 40e-3 })
    const bus = [0, 0.2e-3, 1e-3].map((more, index) =>
      route({ net: `DQ${index}`, ball: `A${index + 1}`, neckLength: 3e-3 + more }),
    )
    const finding = findings(limited, bus).find(({ subject }) => subject.kind === 'group')
    if (finding === undefined) throw new Error('not found')
    expect(finding.severity).toBe('note')
    const { action, result } = remedyOf(finding, /lengthen/)
    expect(action).toMatch(/DQ0, and 1 more by less/)
    expect(result.value).toBeLessThan(ps(0.01))
  })

  it('that the main routes must take up is one note for pairs of one limit', () => {
    const both = withClass(withClass(base, 'serial', { pairSkewLimit: ps(1) }), 'strobe', {
      pairSkewLimit: ps(1),
    })
    const same = {
      ...both,
      classes: both.classes,
      nets: both.nets.map((net) => ({ ...net, class: net.class === 'strobe' ? 'serial' : net.class })),
    }
    const routes = [
      ...pair(3e-3, 3.5e-3),
      route({ net: 'DQS_P', ball: 'B3', neckLength: 3e-3 }),
      route({ net: 'DQS_N', ball: 'B4', neckLength: 4e-3 }),
    ]
    const finding = only(findings(lengths(same, null, null), routes))
    expect(finding.subject).toMatchObject({ name: 'DQS_P and DQS_N', alike: ['TX0_P and TX0_N'] })
  })
})
