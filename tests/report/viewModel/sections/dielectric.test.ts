import { describe, expect, it } from 'vitest'
import { reportContext } from '../../../../src/report/viewModel/context.ts'
import { dielectricSection } from '../../../../src/report/viewModel/sections/dielectric.ts'
import { sampleReview } from '../../fixtures/review.ts'
import { rows, tableOf } from '../rows.ts'

const context = reportContext(sampleReview)

describe('the thickness choice', () => {
  it('give the thickness with its window, or the reason why there is none', () => {
    const lines = rows(tableOf(dielectricSection(context), 'thickness-table'))
    expect(lines[0]).toContain('| none | – | the trace is too narrow')
    expect(lines[1]).toContain('0.081 mm | 0.063 to 0.108 mm | 85.0 ohm ± 2.0 %')
  })
})
