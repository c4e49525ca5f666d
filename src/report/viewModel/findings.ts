import type { Finding } from '../../findings/finding.ts'
import { findingText, withFigure } from '../messages.ts'
import type { ReportContext } from './context.ts'
import { verdict } from './table.ts'
import type { Verdict } from './table.ts'
import { count, keepTogether, someOf } from './words.ts'

export interface FindingModel {
  /** Anchor on the page. */
  readonly id: string
  readonly code: string
  readonly heading: string
  readonly verdict: Verdict
  readonly sentence: string
  readonly reason: string
  readonly alike: string | null
  readonly remedies: readonly string[]
  readonly details: readonly string[]
  readonly hasDetails: boolean
  readonly assumed: string | null
}

export interface FindingsModel {
  readonly summary: string
  readonly findings: readonly FindingModel[]
}

const RANK = { error: 0, warning: 1, note: 2 } as const
const TONE = { error: 'fail', warning: 'watch', note: 'note' } as const

/** Findings by weight, in the order they were found. */
export function sortedFindings(findings: readonly Finding[]): Finding[] {
  return [...findings].sort((a, b) => RANK[a.severity] - RANK[b.severity])
}

/** Anchor of a finding by its place among the sorted ones. */
export function findingId(index: number): string {
  return `finding-${index + 1}`
}

export function findingsModel(context: ReportContext): FindingsModel {
  const sorted = sortedFindings(context.review.findings)
  const of = (severity: Finding['severity']): number =>
    sorted.filter((each) => each.severity === severity).length
  return {
    summary:
      sorted.length === 0
        ? 'Nothing was found that exceeds a limit.'
        : `${count(of('error'), 'error')}, ${count(of('warning'), 'warning')}, ${count(of('note'), 'note')}. Each gives what was computed, what it was held against, and what would help; remedies were computed again, not estimated.`,
    findings: sorted.map((finding, index) => findingModel(finding, index, context)),
  }
}

function findingModel(finding: Finding, index: number, { unit, layerName }: ReportContext): FindingModel {
  const text = findingText(finding, unit, layerName)
  const details = finding.details.map((measure) => keepTogether(withFigure(measure, unit, layerName)))
  return {
    id: findingId(index),
    code: finding.code,
    heading: text.heading,
    verdict: verdict(TONE[finding.severity], finding.severity),
    sentence: keepTogether(text.sentence),
    reason: text.reason,
    alike: text.alike,
    remedies: text.remedies.map(keepTogether),
    details,
    hasDetails: details.length > 0,
    assumed:
      finding.assumed.length === 0
        ? null
        : `Rests on assumed values: ${someOf(
            finding.assumed.map((each) => `${each.quantity} (${each.value})`),
            5,
          )}.`,
  }
}
