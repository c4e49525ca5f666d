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

/** One problem of a description: place, path, what was found and what is allowed, each said once. */
export function describeIssue(issue: Issue): string {
  const { file, line, column, path, found, allowed, message, severity } = issue
  const place = [file, line, column].filter((part) => part !== null).join(':')
  const kind = severity === 'warning' ? ' warning:' : ''
  const where = path === '' || message.includes(path) ? '' : ` ${path}:`
  const rest = [
    message.includes(found) ? '' : `\n    found:   ${found}`,
    message.includes(allowed) ? '' : `\n    allowed: ${allowed}`,
  ]
  return `${place}:${kind}${where} ${message}${rest.join('')}`
}
