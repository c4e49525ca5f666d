import { describe, expect, it } from 'vitest'
import { reportContext } from '../../../../src/report/viewModel/context.ts'
import { methodsSection, limitsText } from '../../../../src/report/viewModel/sections/methods.ts'
import { sampleReview } from '../../fixtures/review.ts'
import { rows, tableOf } from '../rows.ts'

const context = reportContext(sampleReview)

describe('methods', () => {
  it('are listed with limits, band and the number of lines that each was chosen for', () => {
    const lines = rows(tableOf(methodsSection(context), 'methods-table'))
    expect(lines[0]).toMatch(/^Stripline of finite thickness, Wheeler \|.*8 lines/)
    expect(lines[1]).toMatch(/^Coated microstrip, own fit \/ own fit \|/)
    expect(lines[2]).toMatch(/left here at width\/height = /)
  })

  it.each([
    [[], 'no limit stated'],
    [[{ quantity: 'w/h', min: 0.1, max: 2.5 }], 'w/h 0.100 to 2.50'],
    [[{ quantity: 't/b', min: 0, max: 0 }], 't/b = 0'],
    [[{ quantity: 'w/h', min: 1, max: Infinity }], 'w/h from 1.00'],
    [[{ quantity: 'w/h', min: -Infinity, max: 2 }], 'w/h up to 2.00'],
  ])('print the limits %j', (limits, text) => {
    expect(limitsText(limits)).toBe(text)
  })
})
