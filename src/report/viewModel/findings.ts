import type { Finding } from '../../findings/finding.ts'
import { alikeNames, findingText, subjectText, withFigure } from '../messages.ts'
import type { FindingText } from '../messages.ts'
import type { ReportContext } from './context.ts'
import { groupBy, table, verdict } from './table.ts'
import type { Table, Verdict } from './table.ts'
import { count, keepTogether, someOf } from './words.ts'

/** One finding in full. */
export interface FindingModel {
  readonly sentence: string
  readonly alike: string | null
  readonly remedies: readonly string[]
  readonly details: readonly string[]
  readonly hasDetails: boolean
  readonly assumed: string | null
}

/** Findings of one code and severity: the reason is said once. */
export interface FindingGroup {
  /** Anchor on the page. */
  readonly id: string
  readonly code: string
  readonly heading: string
  readonly verdict: Verdict
  readonly reason: string
  /** All of a small group, the first of a large one. */
  readonly findings: readonly FindingModel[]
  /** The others of a large group, a row each; null for a small one. */
  readonly others: Table | null
}

export interface FindingsModel {
  readonly summary: string
  readonly groups: readonly FindingGroup[]
}

type Group = readonly [Finding, ...Finding[]]

/** More findings of one kind than this are listed in a table. */
const MOST_IN_FULL = 3
const MOST_ASSUMED = 3
const RANK = { error: 0, warning: 1, note: 2 } as const
const TONE = { error: 'fail', warning: 'watch', note: 'note' } as const

/** Findings of one kind together, errors first; inside that in the order they were found. */
export function findingGroups(findings: readonly Finding[]): Group[] {
  const sorted = [...findings].sort((a, b) => RANK[a.severity] - RANK[b.severity])
  return groupBy(sorted, ({ severity, code }) => `${severity} ${code}`)
}

/** Anchor of a group. */
export function groupId([{ severity, code }]: Group): string {
  return `finding-${severity}-${code}`
}

export function findingsModel(context: ReportContext): FindingsModel {
  const { findings } = context.review
  const of = (severity: Finding['severity']): number =>
    findings.filter((each) => each.severity === severity).length
  return {
    summary:
      findings.length === 0
        ? 'Nothing was found that exceeds a limit.'
        : `${count(of('error'), 'error')}, ${count(of('warning'), 'warning')}, ${count(of('note'), 'note')}. Each gives what was computed, what it was held against, and what would help; remedies were computed again, not estimated.`,
    groups: findingGroups(findings).map((group) => groupModel(group, context)),
  }
}

function groupModel(group: Group, context: ReportContext): FindingGroup {
  const [first] = group
  const text = findingText(first, context.unit, context.layerName)
  const inFull = group.length <= MOST_IN_FULL ? group : [first]
  return {
    id: groupId(group),
    code: first.code,
    heading: group.length === 1 ? text.heading : `${text.heading} (${group.length})`,
    verdict: verdict(TONE[first.severity], first.severity),
    reason: text.reason,
    findings: inFull.map((finding) => findingModel(finding, context)),
    others: inFull.length === group.length ? null : othersTable(group, text, context),
  }
}

function findingModel(finding: Finding, { unit, layerName }: ReportContext): FindingModel {
  const text = findingText(finding, unit, layerName)
  const details = finding.details.map((measure) => keepTogether(withFigure(measure, unit, layerName)))
  const assumed = finding.assumed.map((each) => `${each.quantity} (${each.value})`)
  return {
    sentence: keepTogether(text.sentence),
    alike: text.alike,
    remedies: text.remedies.map(keepTogether),
    details,
    hasDetails: details.length > 0,
    assumed:
      assumed.length === 0
        ? null
        : keepTogether(`Rests on assumed values: ${someOf(assumed, MOST_ASSUMED)}.`),
  }
}

function othersTable(group: Group, { heading }: FindingText, { unit, layerName }: ReportContext): Table {
  return table({
    id: `${groupId(group)}-others`,
    caption: `${heading}: the others`,
    columns: ['>Where', '>Computed', '>Held against', '>What would help'],
    rows: group.slice(1).map((finding) => {
      const alike = alikeNames(finding.subject, layerName)
      const [remedy = ''] = findingText(finding, unit, layerName).remedies
      return [
        {
          text: subjectText(finding.subject, layerName),
          note: alike.length === 0 ? null : `and ${someOf(alike, 3)}`,
        },
        withFigure(finding.measured, unit, layerName),
        { text: withFigure(finding.limit, unit, layerName), note: finding.limitSource },
        remedy,
      ]
    }),
  })
}
