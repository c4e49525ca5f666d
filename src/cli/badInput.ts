import type { Issue } from '../board/issue.ts'

/** Something that the user can put right, with everything that is wrong. The command ends with exit code 2. */
export class BadInput extends Error {
  readonly problems: readonly string[]

  constructor(problems: readonly string[]) {
    super(problems.join('\n'))
    this.problems = problems
  }
}

/** `--width: found 0.1 without a unit; allowed: write 0.1 mm, not 0.1`. */
export function problemWith(place: string, found: string, allowed: string): string {
  return `${place}: found ${found}; allowed: ${allowed}`
}

/** One problem of a description: place, message, and what was found and allowed on lines of their own. */
export function describeIssue(issue: Issue): string {
  const place = [issue.file, issue.line, issue.column].filter((part) => part !== null).join(':')
  const path = issue.path === '' ? '' : ` ${issue.path}:`
  const kind = issue.severity === 'warning' ? ' warning:' : ''
  return `${place}:${kind}${path} ${issue.message}\n    found:   ${issue.found}\n    allowed: ${issue.allowed}`
}
