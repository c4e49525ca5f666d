import type { Issue } from '../../board/issue.ts'
import { capital, count } from '../viewModel/words.ts'
import type { PageFrame } from './pageFrame.ts'

/** One problem of a description, with its place. */
export interface IssueLine {
  readonly place: string
  readonly text: string
  readonly kind: string
}

export interface ProblemsPage {
  readonly page: PageFrame
  readonly heading: string
  readonly lines: readonly IssueLine[]
}

/** A description that cannot be reviewed: everything that is wrong with it, at once. */
export function problemsPage(name: string, issues: readonly Issue[], version: string): ProblemsPage {
  const errors = issues.filter((issue) => issue.severity === 'error').length
  return {
    page: { pageTitle: `${name}: ${count(errors, 'problem')}`, version, board: null },
    heading: `${name} cannot be reviewed yet: ${count(errors, 'problem')}`,
    lines: issueList(issues),
  }
}

export function issueList(issues: readonly Issue[]): IssueLine[] {
  return issues.map((issue) => ({
    place: [
      issue.file,
      ...(issue.line === null ? [] : [`line ${issue.line}`]),
      // Most messages begin with the path.
      ...(issue.path === '' || issue.message.includes(issue.path) ? [] : [issue.path]),
    ].join(', '),
    text: [
      capital(issue.message),
      ...(issue.message.includes(issue.found) ? [] : [`Found: ${issue.found}.`]),
      ...(issue.message.includes(issue.allowed) ? [] : [`Allowed: ${issue.allowed}.`]),
    ].join(' '),
    kind: issue.severity === 'error' ? 'problem' : 'to know',
  }))
}
