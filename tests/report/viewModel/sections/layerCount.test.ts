import { describe, expect, it } from 'vitest'
import { reportContext } from '../../../../src/report/viewModel/context.ts'
import { layerCountSection } from '../../../../src/report/viewModel/sections/layerCount.ts'
import { sampleReview } from '../../fixtures/review.ts'
import { rows, tableOf } from '../rows.ts'

const context = reportContext(sampleReview)

describe('layer counts', () => {
  const section = layerCountSection(context)

  it('give each rule unrounded and rounded, with its source', () => {
    expect(rows(tableOf(section, 'layer-rules'))[2]).toBe(
      'Signals over channels, rounded up | U1 | Any via | 1 | 133 signals over 60 channels | 2.22 | 3 | AMD UG1099, chapter 2',
    )
  })

  it('hold a claim against the plan', () => {
    expect(rows(tableOf(section, 'layer-claims'))[0]).toContain('2 | 3 | refuted')
  })

  it('say where no number of layers is enough', () => {
    const escapes = sampleReview.escapes.map((escape) => ({
      ...escape,
      rules: escape.rules.map((rule) => ({ ...rule, unrounded: null, signalLayers: null })),
    }))
    expect(
      rows(tableOf(layerCountSection(reportContext({ ...sampleReview, escapes })), 'layer-rules'))[0],
    ).toContain('– | none is enough')
  })
})
