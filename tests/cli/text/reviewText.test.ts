import { describe, expect, it } from 'vitest'
import { reviewText } from '../../../src/cli/text/reviewText.ts'
import { sampleReview } from '../../report/fixtures/review.ts'

const textOf = (change: Partial<typeof sampleReview>): string =>
  reviewText({ ...sampleReview, ...change }, []).replaceAll(/\s+/g, ' ')

describe('the text of a review', () => {
  it('says in a line how much the traces beside necks send into the one that has most of it', () => {
    expect(textOf({})).toContain(
      'Traces beside necks: at most 6.2 % of their swing as near-end noise (DDR4_CHANNEL_A_BYTE0_DQ32 on',
    )
    expect(textOf({})).toContain('at U1), limit 5.0 %; 1 of 3 necks above.')
  })

  it('leaves the line out where no neck has a trace beside it', () => {
    expect(textOf({ couplings: [] })).not.toContain('Traces beside necks:')
  })
})
