import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { EscapePlan } from '../../src/escape/escape.ts'
import { planEscape } from '../../src/escape/planEscape.ts'
import { planFaults } from './planChecker.ts'
import { randomMaps } from './randomMaps.ts'

/** What of an incomplete plan is not accounted for by a bound, a cut, or lanes that are closed or taken. */
function unexplained(plan: EscapePlan): string[] {
  const beyond = plan.layers.flatMap(({ layer, bound }) =>
    bound !== null && bound.escaped > bound.atMost
      ? [`layer ${layer} lets out more than any layout can`]
      : [],
  )
  const silent = plan.unescaped
    .filter(
      ({ reason }) =>
        !/a cut of \d+ gates|passes one (of \d+ places|place)|close every lane|pads of .* touch|no described/.test(
          reason,
        ),
    )
    .map(({ ball, reason }) => `${ball}: ${reason}`)
  return [...beyond, ...silent]
}

describe('plans of 1,000 random ball maps of 0.4 to 1.27 mm', () => {
  it('are clean under both checks, and complete or with what closes the way', () => {
    let complete = 0
    let escaped = 0
    let signals = 0
    fc.assert(
      fc.property(randomMaps, ({ board, pack, technology }) => {
        const plan = planEscape(board, pack, technology)
        const viaOf = new Map(plan.supplies.map(({ ball, via }) => [ball, via.split(' + ')]))
        expect(plan.check.faults).toEqual([])
        expect(planFaults(board, pack, plan, ({ name }) => viaOf.get(name) ?? [])).toEqual([])
        expect(unexplained(plan)).toEqual([])
        complete += plan.unescaped.length === 0 ? 1 : 0
        escaped += plan.routes.length
        signals += plan.routes.length + plan.unescaped.length
      }),
      { seed: 20261125, numRuns: 1000 },
    )
    // An empty plan is clean as well.
    expect(complete).toBeGreaterThan(900)
    expect(escaped).toBeGreaterThan(0.95 * signals)
  }, 120_000)
})
