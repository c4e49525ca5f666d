import { describe, expect, it } from 'vitest'
import { reportContext } from '../../../../src/report/viewModel/context.ts'
import { sourcesSection } from '../../../../src/report/viewModel/sections/sources.ts'
import { sampleReview } from '../../fixtures/review.ts'
import { rows, tableOf } from '../rows.ts'

const context = reportContext(sampleReview)

describe('the sources', () => {
  it('list sources once each with all their uses, and no limit of the description itself', () => {
    const lines = rows(tableOf(sourcesSection(context), 'sources-table'))
    expect(new Set(lines).size).toBe(lines.length)
    expect(lines.join()).toContain('Invented memory guide, Table 3 | neck allowance of memory data')
    expect(lines.join()).not.toMatch(/common practice|analysis settings|class memory/)
  })
})
