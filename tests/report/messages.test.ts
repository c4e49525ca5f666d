import { describe, expect, it } from 'vitest'
import { FINDING_CODES } from '../../src/findings/finding.ts'
import type { Finding } from '../../src/findings/finding.ts'
import { formatMeasure } from '../../src/report/measure.ts'
import { findingText, subjectText } from '../../src/report/messages.ts'
import { findings } from './fixtures/findings.ts'

const layerName = (layer: number): string => `L${layer}`

function textOf(finding: Finding) {
  return findingText(finding, 'mm', layerName)
}

function sample(code: Finding['code']): Finding {
  const finding = findings.find((each) => each.code === code)
  if (finding === undefined) throw new Error(`the sample has no ${code}`)
  return finding
}

describe('the words of findings', () => {
  it('have a sample of every code to be tested with', () => {
    expect(findings.map((finding) => finding.code)).toEqual([...FINDING_CODES])
  })

  it.each(findings.map((finding) => [finding.code, finding] as const))(
    'say of %s in one sentence what was computed, against what, and who says so',
    (_code, finding) => {
      const { sentence } = textOf(finding)
      expect(sentence).toContain(
        `${finding.measured.what} ${formatMeasure(finding.measured, 'mm', layerName)}`,
      )
      expect(sentence).toContain(`${finding.limit.what} ${formatMeasure(finding.limit, 'mm', layerName)}`)
      expect(sentence).toContain(`(${finding.limitSource})`)
      expect(sentence).toContain(subjectText(finding.subject, layerName).slice(1))
      expect(sentence).toMatch(/^[A-Z].*\.$/)
      expect(sentence).not.toMatch(/undefined|NaN|\s{2}|\.\s/)
    },
  )

  it('tell every code apart, by heading, sentence and reason', () => {
    const texts = findings.map(textOf)
    for (const part of ['heading', 'sentence', 'reason'] as const) {
      expect(new Set(texts.map((text) => text[part])).size).toBe(findings.length)
    }
  })

  it('give every remedy with its figure and what then is measured', () => {
    expect(textOf(sample('step-too-large')).remedies).toEqual([
      'Narrow the main route to 0.095 mm: reflection becomes 4.1 %.',
      'Choose the dielectric at 0.042 mm: reflection becomes 2.0 %.',
    ])
  })

  it('say a remedy once where it is its own outcome', () => {
    const length = { what: 'length of the neck', value: 1e-3, unit: 'm', band: null } as const
    const finding = {
      ...sample('neck-too-long'),
      remedies: [{ action: 'shorten the neck to', value: length, result: length }],
    }
    expect(textOf(finding).remedies).toEqual(['Shorten the neck to 1.000 mm.'])
  })

  it('say something of use where nothing that was tried helps', () => {
    for (const finding of findings.filter((each) => each.remedies.length === 0)) {
      expect(textOf(finding).remedies.join('')).toMatch(/^[A-Z].{15,}\.$/)
    }
  })

  it('name what is alike, and count the rest of a long list', () => {
    expect(textOf(sample('step-too-large')).alike).toBe(
      'The same holds for DDR4_CHANNEL_A_BYTE4_DQ52 and DDR4_CHANNEL_A_BYTE5_DQ53.',
    )
    const alike = Array.from({ length: 40 }, (_, index) => `DQ${index}`)
    const { subject } = sample('step-too-large')
    expect(textOf({ ...sample('step-too-large'), subject: { ...subject, alike } }).alike).toContain(
      'and 34 more.',
    )
  })
})

describe('a subject', () => {
  it.each([
    [{ kind: 'class', name: 'memory data', layer: 1, package: 'U2' }, 'class memory data on L1 at U2'],
    [{ kind: 'package', name: 'U1', layer: null, package: 'U1' }, 'U1'],
    [{ kind: 'via', name: 'through via', layer: 3, package: null }, 'through via on L3'],
    [{ kind: 'layer', name: 'L3', layer: 3, package: null }, 'layer L3'],
    [{ kind: 'pair', name: 'CLK', layer: null, package: null }, 'pair CLK'],
  ] as const)('%j reads %s', (subject, text) => {
    expect(subjectText({ ...subject, alike: [] }, layerName)).toBe(text)
  })
})

describe('a measure', () => {
  it.each([
    [{ value: 76.2e-6, unit: 'm' }, '3.0 mil'],
    [{ value: 50, unit: 'ohm' }, '50.0 ohm'],
    [{ value: 12.4e-12, unit: 's' }, '12.4 ps'],
    [{ value: 1e9, unit: 'Hz' }, '1 GHz'],
    [{ value: 0.125, unit: 'fraction' }, '12.5 %'],
    [{ value: 12.5, unit: 'percent' }, '12.5 %'],
    [{ value: 3, unit: 'count' }, '3'],
    [{ value: 0.75, unit: 'count' }, '0.750'],
    [{ value: 3, unit: 'layer' }, 'L3'],
    [{ value: 0, unit: 'text' }, ''],
  ] as const)('%j prints %s', (measure, text) => {
    expect(formatMeasure({ what: '', band: null, ...measure }, 'mil', layerName)).toBe(text)
  })

  it('carries its error band', () => {
    expect(formatMeasure({ what: '', value: 50, unit: 'ohm', band: 0.02 }, 'mm', layerName)).toBe(
      '50.0 ohm ± 2.0 %',
    )
  })
})
