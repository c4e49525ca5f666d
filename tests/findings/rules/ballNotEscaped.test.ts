import { describe, expect, it } from 'vitest'
import type { Board } from '../../../src/board/board.ts'
import { ballNotEscaped } from '../../../src/findings/rules/ballNotEscaped.ts'
import { exampleBoard } from '../../board/exampleBoard.ts'
import { um, withClass } from '../../signal/fixtures.ts'
import {
  contextOf,
  detail,
  only,
  remedyOf,
  throughVia,
  withFabrication,
  withPackage,
  withPads,
  withVia,
} from '../fixtures.ts'

const base = await exampleBoard()
const findings = (board: Board): ReturnType<typeof ballNotEscaped> => ballNotEscaped(contextOf(board))

/** Every ball a signal of its own, between lands that let none pass. */
const full = withPackage(base, {
  viaPlacement: 'in pad',
  landDiameter: um(700),
  maskOpening: um(710),
  balls: (base.packages[0]?.balls ?? []).map((ball) => ({
    ...ball,
    net: `N_${ball.name}`,
    use: 'signal' as const,
  })),
})
const crowded: Board = {
  ...full,
  nets: (full.packages[0]?.balls ?? []).map((ball) => ({
    name: `N_${ball.name}`,
    class: 'data',
    pins: [{ package: 'U1', ball: ball.name }],
    partner: null,
    partnerBasis: null,
    polarity: null,
    matchGroup: null,
    packageDelay: null,
    mainLength: null,
    exitLayer: null,
    assumed: [],
  })),
}
/** Pads of 0.64 mm that stay on inner layers leave 8 um in a channel of 0.8 mm. */
const wide = withClass(
  withVia(crowded, { ...withPads(throughVia(crowded), um(640)), unconnectedInnerPads: 'kept' }),
  'data',
  { neck: { width: um(100), gap: um(100) } },
)

describe('balls that stay inside', () => {
  it('are not found where all get out', () => {
    expect(findings(base)).toEqual([])
  })

  const finding = only(findings(wide))

  it('are an error with their number, their names and the reasons', () => {
    const left = contextOf(wide).escapes[0]?.plans.find(
      ({ technology }) => technology === 'through',
    )?.unescaped
    expect(finding.severity).toBe('error')
    expect(finding.measured.value).toBe(left?.length)
    expect(detail(finding, /signal balls/)).toBe(60)
    expect(finding.details.some(({ what }) => what.includes(left?.[0]?.ball ?? 'none'))).toBe(true)
  })

  it('become as many as the remedy says when its change is made', () => {
    const pads = remedyOf(finding, /^remove the pads/)
    const bare = findings(withVia(wide, { unconnectedInnerPads: 'removed' }))
    expect(bare[0]?.measured.value ?? 0).toBe(pads.result.value)
    expect(pads.result.value).toBeLessThan(finding.measured.value)
  })

  it('are told what fewer stay inside with all changes together', () => {
    const last = finding.remedies.at(-1)
    expect(last?.result.value).toBeLessThan(finding.measured.value)
    for (const remedy of finding.remedies) expect(remedy.result.value).toBeLessThan(finding.measured.value)
  })

  it('are not promised a way out by changes that let none out', () => {
    // 0.8 mm less the drill and 0.3 mm on both sides leave nothing.
    expect(only(findings(withFabrication(wide, { drillToCopper: um(300) }))).remedies).toEqual([])
  })
})
