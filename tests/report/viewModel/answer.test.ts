import { describe, expect, it } from 'vitest'
import { answer } from '../../../src/report/viewModel/answer.ts'
import { reportContext } from '../../../src/report/viewModel/context.ts'
import { identity } from '../../../src/report/viewModel/identity.ts'
import type { Review } from '../../../src/review.ts'
import { sampleReview } from '../fixtures/review.ts'

function statements(review: Review, question: string): string[] {
  const line = answer(reportContext(review)).lines.find((each) => each.question === question)
  return (line?.statements ?? []).map((text) => text.replaceAll('\u00a0', ' '))
}

describe('the answer', () => {
  it('gives the layers of each package with both kinds of via, and what stays inside', () => {
    expect(statements(sampleReview, 'Signal layers needed')).toEqual([
      'U1: 3 (L1, L3 and L8) with through vias, and still 22 balls of 174 without a way out; 3 (L1, L3 and L8) with blind vias or microvias.',
      'U2: 0 with through vias, and still 48 balls of 48 without a way out; 2 (L1 and L3) with blind vias or microvias.',
    ])
  })

  it('begins with a fault of the program where a plan breaks a clearance rule, and has no such line otherwise', () => {
    expect(statements(sampleReview, 'Fault of the program')).toEqual([])
    const fault = {
      layer: 3,
      ball: 'B4',
      other: 'trace of C4',
      otherBall: 'C4',
      rule: 'trace to trace',
      found: 0.05e-3,
      needed: 0.1e-3,
    } as const
    const [first, ...others] = sampleReview.escapes
    if (first === undefined) throw new Error('the sample has no escape')
    const plans = first.plans.map((plan, index) =>
      index === 0 ? { ...plan, check: { compared: 2, faults: [fault, fault] } } : plan,
    )
    const faulty = { ...sampleReview, escapes: [{ ...first, plans }, ...others] }
    expect(answer(reportContext(faulty)).lines[0]?.question).toBe('Fault of the program')
    const [text = '', ...more] = statements(faulty, 'Fault of the program')
    expect(more).toEqual([])
    expect(text).toContain(
      '2 places too near, e.g. ball B4 to trace of C4 on L3, 0.050 mm where trace to trace asks for 0.100 mm. This plan must not be trusted',
    )
    expect(identity(reportContext(faulty), '0.1.0')).toMatchObject({
      status: 'Not to be used: the program made a plan that breaks clearance rules.',
      statusTone: 'fail',
    })
  })

  it('does not let a tight layer speak for the roomier ones', () => {
    const [first, ...others] = sampleReview.escapes
    const [fit] = first?.channels ?? []
    if (first === undefined || fit === undefined) throw new Error('the sample has no channel')
    const tight = {
      ...fit,
      layer: 3,
      traces: 0,
      widestOne: null,
      widestTwo: null,
      governing: { ...fit.governing, clear: -70e-6 },
    }
    const tighter = {
      ...sampleReview,
      escapes: [{ ...first, channels: [...first.channels, tight] }, ...others],
    }
    const widths = statements(tighter, 'Width per channel').filter((each) =>
      each.startsWith('U1 between lands'),
    )
    expect(widths).toHaveLength(2)
    expect(widths[0]).toMatch(/^U1 between lands \(L1\): one trace up to 0\.260 mm/)
    expect(widths[1]).toMatch(/^U1 between lands \(L3\): no trace of .*; too narrow for /)
  })

  it('gives one width for each kind of obstacle, and only widths that are made', () => {
    const widths = statements(sampleReview, 'Width per channel')
    expect(widths).toContain(
      'U1 between lands (L1): one trace up to 0.260 mm, or two up to 0.090 mm each, by trace to pad.',
    )
    expect(widths).toContain(
      'U2 between lands (L1): one trace up to 0.090 mm, and not two, by trace to pad; too narrow for memory data.',
    )
    expect(widths).toHaveLength(4)
  })

  it('finds the worst step of all nets, wherever it stands', () => {
    const largest = Math.max(
      ...sampleReview.signals.flatMap((signal) => signal.steps.map((step) => Math.abs(step.reflection))),
    )
    const [text = ''] = statements(sampleReview, 'Worst step')
    expect(text).toContain(`${(-100 * largest).toFixed(1)} %`)
    expect(
      statements({ ...sampleReview, signals: [...sampleReview.signals].reverse() }, 'Worst step')[0],
    ).toBe(text)
  })

  it('finds the worst reflection of all necks, before the device or between main routes', () => {
    const peaks = sampleReview.signals.flatMap((signal) =>
      signal.ends.flatMap((end) => [end.reflection.mainBothSides.exact, end.reflection.device.exact]),
    )
    const [text = ''] = statements(sampleReview, 'Worst reflection of a breakout')
    expect(text).toContain(`${(100 * Math.max(...peaks.map(Math.abs))).toFixed(1)} % at the net’s own edge`)
  })

  it('says what must change once for each kind, errors before warnings, and leaves notes out', () => {
    const { changes, moreChanges } = answer(reportContext(sampleReview))
    expect(changes).toHaveLength(6)
    expect(changes[0]).toMatchObject({
      href: '#finding-error-main-off-target',
      heading: 'Main route misses its target',
    })
    expect(moreChanges).toBe('13 further kinds of finding below.')
    const notes = sampleReview.findings.filter((finding) => finding.severity === 'note')
    expect(answer(reportContext({ ...sampleReview, findings: notes }))).toMatchObject({
      hasChanges: false,
      moreChanges: null,
    })
  })

  it('counts findings of one kind instead of repeating them', () => {
    const skew = sampleReview.findings.filter((finding) => finding.code === 'skew-too-large')
    const { changes } = answer(reportContext({ ...sampleReview, findings: [...skew, ...skew, ...skew] }))
    expect(changes.map((change) => change.text)).toEqual([
      'group byte 0 and 2 more: The main routes have to take up the difference.',
    ])
  })

  it('says so where nothing has an impedance', () => {
    const bare = { ...sampleReview, signals: [] }
    expect(statements(bare, 'Worst step')).toEqual(['No net has two stretches of known impedance.'])
    expect(statements(bare, 'Worst reflection of a breakout')).toEqual([
      'No neck with a known main route behind it.',
    ])
  })
})
