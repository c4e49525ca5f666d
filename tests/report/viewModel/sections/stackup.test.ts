import { describe, expect, it } from 'vitest'
import { reportContext } from '../../../../src/report/viewModel/context.ts'
import { stackupSection } from '../../../../src/report/viewModel/sections/stackup.ts'
import { sampleReview } from '../../fixtures/review.ts'
import { rows, tableOf } from '../rows.ts'

const context = reportContext(sampleReview)

describe('the stackup', () => {
  it('give the stackup with the basis of each thickness', () => {
    const lines = rows(tableOf(stackupSection(context), 'stackup-table'))
    expect(lines).toHaveLength(sampleReview.board.stackup.layers.length)
    expect(lines[1]).toContain('0.5 oz foil, plated 0.025 mm, less processing')
    expect(lines[2]).toContain('1 ply 1067, less resin fill')
  })
})
