import { describe, expect, it } from 'vitest'
import { planEscape } from '../../../src/escape/planEscape.ts'
import { COST_RULES, costMarks, costRanks, costText } from '../../../src/escape/variants/costOrder.ts'
import type { CostMarks } from '../../../src/escape/variants/costOrder.ts'
import { packageOf, square } from '../fixtures.ts'
import { described, laminated, MICROVIAS } from './fixtures.ts'

const plain: CostMarks = {
  signalLayers: 3,
  vias: 'through',
  pressings: 1,
  viasInLands: false,
  fineTrace: false,
  leastPads: false,
}

// Common practice, no source: the rules as they are printed.
describe('the order of cost', () => {
  it('goes by each mark in its turn', () => {
    const dearer: CostMarks[] = [
      plain,
      { ...plain, leastPads: true },
      { ...plain, fineTrace: true },
      { ...plain, viasInLands: true },
      { ...plain, pressings: 2 },
      { ...plain, vias: 'blind or buried' },
      { ...plain, vias: 'microvias' },
      { ...plain, vias: 'stacked microvias' },
      { ...plain, signalLayers: 4 },
    ]
    expect(costRanks(dearer)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9])
    expect(costRanks(dearer.toReversed())).toEqual([9, 8, 7, 6, 5, 4, 3, 2, 1])
  })

  it('gives equals one place and what has no marks none', () => {
    expect(
      costRanks([{ ...plain, signalLayers: 2 }, null, plain, plain, { ...plain, pressings: 3 }]),
    ).toEqual([1, null, 2, 2, 4])
  })

  it('says that it is no price', () => {
    expect(COST_RULES.join(' ')).toContain('not money: common practice, no source')
  })

  it('reads its marks from the vias and traces that a plan uses', () => {
    const pack = packageOf(square(12), { via: 'laser 1', viaPlacement: 'in pad' })
    const board = laminated(pack, { vias: [...MICROVIAS] })
    const marks = costMarks(board, described(board).pack, planEscape(board, pack, 'blind'))
    expect(marks).toMatchObject({ vias: 'stacked microvias', viasInLands: true, fineTrace: true })
    expect(costText(marks, board)).toMatch(/signal layers?, stacked microvias, pressed .*vias in the lands/)
  })
})
