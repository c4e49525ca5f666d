import { describe, expect, it } from 'vitest'
import { reportContext } from '../../../../src/report/viewModel/context.ts'
import { packagesSection } from '../../../../src/report/viewModel/sections/packages.ts'
import { sampleReview } from '../../fixtures/review.ts'
import { rows, tableOf } from '../rows.ts'

const context = reportContext(sampleReview)

describe('the channel table', () => {
  it('names every class in one row of the geometry', () => {
    const lines = rows(tableOf(packagesSection(context), 'channels-u1'))
    expect(lines).toHaveLength(3)
    expect(lines[0]).toContain('1 of 0.095 mm, remainder 0.165 mm: memory data')
    expect(rows(tableOf(packagesSection(context), 'channels-u2'))[0]).toContain(
      'none of 0.095 mm, too narrow by 0.005 mm: memory data',
    )
  })

  it('draws the tightest channel of each kind of obstacle', () => {
    expect(packagesSection(context).figures.map((figure) => figure.id)).toEqual([
      'grid-u1',
      'channel-u1-land',
      'channel-u1-via-pad',
      'channel-u1-hole-without-pad',
      'grid-u2',
      'channel-u2-land',
    ])
  })
})
