import { describe, expect, it } from 'vitest'
import { reportContext } from '../../../../src/report/viewModel/context.ts'
import { everySkewTable, timingSection } from '../../../../src/report/viewModel/sections/timing.ts'
import { sampleReview } from '../../fixtures/review.ts'
import { rows, tableOf } from '../rows.ts'

const context = reportContext(sampleReview)

describe('timing', () => {
  it('shows what exceeds its limit by name and the rest by number', () => {
    const within = { ...(sampleReview.skews[1] ?? fail()), skew: 0.2e-12 }
    const section = timingSection(
      reportContext({
        ...sampleReview,
        skews: [...sampleReview.skews, within, { ...within, name: 'other', skew: 0.3e-12 }],
      }),
    )
    const lines = rows(tableOf(section, 'skew-table'))
    expect(lines).toHaveLength(3)
    expect(lines[0]).toContain('over the limit')
    expect(lines[1]).toContain('to be compensated in the main route')
    expect(lines[2]).toMatch(/^2 pairs within the limit \/ largest: other/)
    expect(everySkewTable([within]).rows).toHaveLength(1)
  })

  it('says whether delays inside the package count', () => {
    expect(timingSection(context).paragraphs[0]).toContain('not described')
    const nets = sampleReview.board.nets.map((net) => ({ ...net, packageDelay: 1e-12 }))
    expect(
      timingSection(reportContext({ ...sampleReview, board: { ...sampleReview.board, nets } })).paragraphs[0],
    ).toContain('counts the delay inside the package')
  })
})

function fail(): never {
  throw new Error('the sample has no second skew')
}
