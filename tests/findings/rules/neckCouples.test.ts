import { describe, expect, it } from 'vitest'
import type { Board } from '../../../src/board/board.ts'
import { neckCouples } from '../../../src/findings/rules/neckCouples.ts'
import type { Route } from '../../../src/routes/route.ts'
import type { Point } from '../../../src/units/quantity.ts'
import { exampleBoard } from '../../board/exampleBoard.ts'
import { ps, route, um, withClass } from '../../signal/fixtures.ts'
import { contextOf, detail, only, remedyOf } from '../fixtures.ts'

const base = withClass(await exampleBoard(), 'data', {
  edge: { riseTime: ps(90), shape: 'gaussian', basis: '' },
})
const limited = (crosstalkLimit: number): Board => ({
  ...base,
  analysis: { ...base.analysis, crosstalkLimit },
})

/** Necks side by side, at this distance from middle to middle. */
function bus(distance: number, length: number, nets = ['DQ0', 'DQ1', 'DQ2']): Route[] {
  return nets.map((net, index) => {
    const path = [0, length].map((x): Point => ({ x, y: index * distance }))
    return route({ net, ball: net, path, neckLength: length, dogBoneLength: 0 })
  })
}

const findings = (board: Board, routes: readonly Route[]): ReturnType<typeof neckCouples> =>
  neckCouples(contextOf(board, { routes }))

describe('traces beside a neck', () => {
  const finding = only(findings(limited(0.02), bus(um(170), 3e-3)))

  it('are a warning above the limit, worst neck first and the others with it', () => {
    expect(finding).toMatchObject({
      code: 'neck-couples',
      severity: 'warning',
      subject: { kind: 'net', name: 'DQ1', layer: 3, package: 'U1', alike: ['DQ0', 'DQ2'] },
    })
    expect(finding.measured.value).toBeGreaterThan(0.02)
    expect(finding.limit.value).toBe(0.02)
    expect(detail(finding, /smallest gap/)).toBeCloseTo(um(90), 12)
    expect(detail(finding, /side by side/)).toBeCloseTo(3e-3, 12)
    expect(detail(finding, /^neighbours/)).toBe(2)
    expect(detail(finding, /from there/)).toBeCloseTo(finding.measured.value / 2, 6)
  })

  it('are not found within the limit, nor where there are none', () => {
    expect(findings(limited(0.2), bus(um(170), 3e-3))).toEqual([])
    expect(findings(limited(0.02), bus(um(170), 3e-3, ['DQ0']))).toEqual([])
  })

  it('pass at the gap that it proposes, and not at one a step smaller', () => {
    const { value, result } = remedyOf(finding, /gap/)
    expect(findings(limited(0.02), bus(value.value + um(80), 3e-3))).toEqual([])
    expect(result.value).toBeLessThanOrEqual(0.02)
    expect(findings(limited(0.02), bus(value.value - um(2) + um(80), 3e-3))).toHaveLength(1)
  })

  it('pass at the length that it proposes, and not at one that is longer', () => {
    const { value, result, action } = remedyOf(finding, /run beside it/)
    expect(action).toMatch(/DQ0|DQ2/)
    expect(findings(limited(0.02), bus(um(170), value.value))).toEqual([])
    expect(result.value).toBeLessThanOrEqual(0.02)
    expect(findings(limited(0.02), bus(um(170), value.value + um(3)))).toHaveLength(1)
  })

  it('of a pair name both of its nets', () => {
    const pair = { gap: um(100), dogBoneLength: 0 }
    const routes = bus(um(180), 3e-3, ['TX0_N', 'TX0_P', 'DQ0']).map((each) =>
      each.net.startsWith('TX')
        ? route({ ...each, ...pair, stretches: [{ coupled: true, length: 3e-3, beside: [] }] })
        : each,
    )
    const found = findings(limited(0.005), routes)
    expect(found.map(({ subject }) => [subject.kind, subject.name])).toContainEqual([
      'pair',
      'TX0_P and TX0_N',
    ])
  })

  it('rest on the assumed limit where the description states none', async () => {
    const { analysis } = await exampleBoard()
    const assumed = only(
      findings({ ...base, analysis: { ...analysis, crosstalkLimit: 0.02 } }, bus(um(170), 3e-3)),
    ).assumed
    expect(assumed.map(({ path }) => path)).toContain('analysis.crosstalk_limit')
  })
})
