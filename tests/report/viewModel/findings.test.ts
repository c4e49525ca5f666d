import { describe, expect, it } from 'vitest'
import { reportContext } from '../../../src/report/viewModel/context.ts'
import { findingsModel } from '../../../src/report/viewModel/findings.ts'
import { identity } from '../../../src/report/viewModel/identity.ts'
import type { Finding } from '../../../src/findings/finding.ts'
import { sampleReview } from '../fixtures/review.ts'

function model(findings: readonly Finding[]) {
  return findingsModel(reportContext({ ...sampleReview, findings }))
}

const sample = (code: Finding['code']): Finding[] =>
  sampleReview.findings.filter((finding) => finding.code === code)

describe('the findings', () => {
  it('come by weight: errors, warnings, notes', () => {
    const tones = model(sampleReview.findings).groups.map((group) => group.verdict.text)
    expect(tones).toEqual(
      [...tones].sort(
        (a, b) => ['error', 'warning', 'note'].indexOf(a) - ['error', 'warning', 'note'].indexOf(b),
      ),
    )
    expect(model(sampleReview.findings).summary).toContain('12 errors, 7 warnings, 4 notes.')
  })

  it('of one kind stand in full while they are few', () => {
    const [group] = model([...sample('step-too-large'), ...sample('step-too-large')]).groups
    expect(group).toMatchObject({ heading: 'Reflection of the breakout is too large (2)', others: null })
    expect(group?.findings).toHaveLength(2)
  })

  it('of one kind get a table after the first when they are many, so that none is lost', () => {
    const many = Array.from({ length: 9 }, () => sample('step-too-large')).flat()
    const [group] = model(many).groups
    expect(group?.findings).toHaveLength(1)
    expect(group?.others?.rows).toHaveLength(8)
    expect(group?.others?.rows[0]?.cells.map((cell) => cell.text.replaceAll('\u00a0', ' '))).toEqual([
      'net DDR4_CHANNEL_A_BYTE3_DQ51 on L1 at U2',
      'reflection 12.1 % ± 2.0 %',
      'limit 8.0 %',
      'Narrow the main route to 0.095 mm: reflection becomes 4.1 %.',
    ])
  })

  it('name the assumed values that they rest on', () => {
    const [group] = model(sample('assumed-input-decides')).groups
    expect(group?.findings[0]?.assumed).toContain('copper roughness of L3')
  })
})

describe('the status', () => {
  const status = (findings: readonly Finding[]) =>
    identity(reportContext({ ...sampleReview, findings }), '1.2.3')

  it('is a draft while there are errors, and for review without', () => {
    expect(status(sampleReview.findings)).toMatchObject({
      statusTone: 'fail',
      status: 'Draft: 12 errors and 7 warnings to settle, 6 values assumed.',
    })
    expect(status(sample('neck-too-long'))).toMatchObject({
      statusTone: 'watch',
      status: 'For review: no errors, 1 warning, 6 values assumed.',
    })
    expect(status(sample('trace-over-antipad'))).toMatchObject({
      statusTone: 'pass',
      status: 'For review: nothing exceeds its limit, 6 values assumed.',
    })
  })

  it('never calls a board agreed: only signatures do', () => {
    expect(status([]).status).not.toMatch(/agreed|approved/i)
  })
})
