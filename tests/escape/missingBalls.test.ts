import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { EscapePlan } from '../../src/escape/escape.ts'
import { planEscape } from '../../src/escape/planEscape.ts'
import { boardOf, packageOf, square, via } from './fixtures.ts'
import { planFaults } from './planChecker.ts'

const BLIND = Array.from({ length: 11 }, (_, index) =>
  via(`to ${index + 2}`, { kind: 'blind', lastLayer: index + 2 }),
)

/** Plans of one map with through and with blind vias: one trace between two lands or two vias, twelve layers. */
function plansOf(drawing: readonly string[]): EscapePlan[] {
  const pack = packageOf(drawing)
  const board = boardOf(pack, { vias: [via('through'), ...BLIND] })
  return (['through', 'blind'] as const).map((technology) => {
    const plan = planEscape(board, pack, technology)
    expect(plan.unescaped).toEqual([])
    expect(planFaults(board, pack, plan, () => [])).toEqual([])
    return plan
  })
}

const layersUsed = ({ layers }: EscapePlan): number => layers.findLastIndex(({ escaped }) => escaped > 0) + 1

/**
 * Layers for so many rows on each side of an array, where one trace passes each channel: with through vias two rows
 * leave on each of the first two layers and one on each further, with blind vias two on every layer. Eight rows need six
 * and four: practitioners' mailing list, 2008-03-28; common practice.
 */
function rowRule(rows: number): [through: number, blind: number] {
  return [rows <= 4 ? Math.ceil(rows / 2) : rows - 2, Math.ceil(rows / 2)]
}

/** The same map without the balls whose dice fall below a share. */
function thinned(drawing: readonly string[], dice: readonly number[], percent: number): string[] {
  return drawing.map((row, index) =>
    Array.from(row)
      .map((letter, column) => ((dice[index * row.length + column] ?? 100) < percent ? '.' : letter))
      .join(''),
  )
}

describe('fewer layers where balls are missing', () => {
  it('counts six and four layers for the eight rows of the rule', () => {
    expect(rowRule(8)).toEqual([6, 4])
  })

  it('never needs more than the full array does, nor than the row rule', () => {
    const maps = fc.record({
      side: fc.integer({ min: 4, max: 16 }),
      percent: fc.integer({ min: 10, max: 40 }),
      dice: fc.array(fc.integer({ min: 0, max: 99 }), { minLength: 256, maxLength: 256 }),
    })
    const fell: boolean[] = []
    const full = new Map<number, number[]>()
    fc.assert(
      fc.property(maps, ({ side, percent, dice }) => {
        const drawing = square(side)
        const whole = full.get(side) ?? plansOf(drawing).map(layersUsed)
        full.set(side, whole)
        const some = plansOf(thinned(drawing, dice, percent)).map(layersUsed)
        for (const [index, rule] of rowRule(Math.ceil(side / 2)).entries()) {
          expect(whole[index]).toBeLessThanOrEqual(rule)
          expect(some[index]).toBeLessThanOrEqual(whole[index] ?? NaN)
          fell.push((some[index] ?? NaN) < (whole[index] ?? NaN))
        }
      }),
      { seed: 20261125, numRuns: 60 },
    )
    // A map that needs one layer cannot need fewer; of the others about half do.
    expect(fell.filter(Boolean).length).toBeGreaterThan(fell.length / 3)
  }, 60_000)

  it('needs three in the place of six and four for sixteen rows of sixty of which each fourth column is missing', () => {
    const long = Array.from({ length: 16 }, () => 's'.repeat(60))
    const [through, blind] = plansOf(long).map(layersUsed)
    expect([through, blind]).toEqual(rowRule(8))
    const open = long.map(() => 'sss.'.repeat(15))
    expect(plansOf(open).map(layersUsed)).toEqual([3, 3])
  }, 30_000)
})
