import { describe, expect, it } from 'vitest'
import { reportContext } from '../../../../src/report/viewModel/context.ts'
import { inputsSection } from '../../../../src/report/viewModel/sections/inputs.ts'
import { questionsSection } from '../../../../src/report/viewModel/sections/questions.ts'
import type { Review } from '../../../../src/review.ts'
import { assumption } from '../../fixtures/stackup.ts'
import { sampleReview } from '../../fixtures/review.ts'
import { rows, tableOf } from '../rows.ts'

const context = reportContext(sampleReview)

describe('inputs and questions', () => {
  const alike = ['core 1', 'core 2', 'core 3'].map((name, index) =>
    assumption(
      `stackup.layers[${index}].permittivity_tolerance`,
      `tolerance of the permittivity of ${name}`,
      '± 5 %',
    ),
  )
  const review: Review = { ...sampleReview, board: { ...sampleReview.board, assumptions: alike } }

  it('put the same assumption about one part after another in one row and one question', () => {
    expect(rows(tableOf(inputsSection(reportContext(review)), 'assumptions-table'))).toEqual([
      'tolerance of the permittivity of core 1 / and tolerance of the permittivity of core 2 and tolerance of the permittivity of core 3 | ± 5 % | common practice, no source | stackup.layers[0].permittivity_tolerance / and 2 further places',
    ])
    const asked = questionsSection(reportContext({ ...review, findings: [] })).points.filter((point) =>
      point.startsWith('Please confirm'),
    )
    expect(asked).toHaveLength(1)
  })

  it('ask the fabricator about what they know, and not about the interface', () => {
    const asked = questionsSection(context).points.join(' ')
    expect(asked).toContain('relative permittivity of core 2')
    expect(asked).not.toContain('rise time of memory data')
  })

  it('ask what a finding leaves open', () => {
    expect(questionsSection(context).points.join(' ')).toContain(
      'Which residual stub can backdrilling hold? The barrel left hanging',
    )
  })

  it('always ask for finished width, test method, permission and coupon', () => {
    const asked = questionsSection(reportContext({ ...review, findings: [] })).points.join(' ')
    for (const word of ['finished width', 'test method', 'who has to agree', 'IPC-TM-650 2.5.5.7'])
      expect(asked).toContain(word)
  })

  it('mark assumed capability figures where they stand', () => {
    expect(
      rows(tableOf(inputsSection(context), 'fabrication-table')).find((line) =>
        line.includes('registration'),
      ),
    ).toContain('± 0.075 mm / assumed')
  })
})
