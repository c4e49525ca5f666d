import { describe, expect, it } from 'vitest'
import { reportContext } from '../../../../src/report/viewModel/context.ts'
import { processSection } from '../../../../src/report/viewModel/sections/process.ts'
import { sampleReview } from '../../fixtures/review.ts'
import { spreads } from '../../fixtures/spreads.ts'
import { rows, tableOf } from '../rows.ts'

const shown = (of = spreads): string[] =>
  rows(tableOf(processSection(reportContext({ ...sampleReview, spreads: of })), 'process-table'))

describe('the section on the process', () => {
  it('gives each line what every input does, and all together in percent and ohm', () => {
    const [row = ''] = shown()
    for (const words of [
      '-7.4 to +8.8 %',
      '-5.2 to +4.9 %',
      '-9.0 to +10.1 %',
      'all at once -12.0 to +14.0 %',
    ])
      expect(row).toContain(words)
  })

  it('says of a neck that it may leave its tolerance, and of a main route that the coupon holds it', () => {
    const necks = shown().filter((row) => row.includes('neck'))
    const mains = shown().filter((row) => row.includes('main route'))
    expect(necks.join()).toContain('may leave the tolerance')
    expect(mains.join()).not.toContain('may leave the tolerance')
  })

  it('says where a line does not come out', () => {
    expect(shown().join()).toContain('does not come out at an end of its tolerances')
  })

  it('has one row for lines that are alike', () => {
    expect(shown([...spreads, ...spreads])).toEqual(shown())
  })

  it('says that there is nothing where no line is used', () => {
    expect(processSection(reportContext({ ...sampleReview, spreads: [] })).tables[0]?.whenEmpty).toBe(
      'No line is used.',
    )
  })
})
