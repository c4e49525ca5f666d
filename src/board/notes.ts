import type { Assumption } from '../units/assumption.ts'
import type { LengthUnit } from '../units/quantity.ts'
import type { Locate } from './document/locate.ts'
import { formatPath, type Path } from './document/path.ts'
import type { Issue } from './issue.ts'

/** What every stage needs to say where something is and in which unit to print it. */
export interface ReadingContext {
  readonly file: string
  readonly locate: Locate
  readonly displayUnit: LengthUnit
}

export interface Problem {
  readonly found: string
  readonly allowed: string
  /** One sentence; made of the other two where left out. */
  readonly message?: string
}

/** What one stage makes of its part of the description; null, where the type has it, for an unusable part. */
export interface Completed<T> {
  readonly value: T
  readonly issues: readonly Issue[]
  readonly assumptions: readonly Assumption[]
}

/** Collects what a stage finds wrong and what it assumes. */
export class Notes {
  readonly issues: Issue[] = []
  readonly assumptions: Assumption[] = []
  readonly context: ReadingContext

  constructor(context: ReadingContext) {
    this.context = context
  }

  error(path: Path, problem: Problem): void {
    this.issues.push(issueAt('error', this.context, path, problem))
  }

  warn(path: Path, problem: Problem): void {
    this.issues.push(issueAt('warning', this.context, path, problem))
  }

  assume(path: Path, quantity: string, value: string, source: string): void {
    this.assumptions.push({ path: formatPath(path), quantity, value, source })
  }

  /** Takes over the issues and assumptions of a part and hands back its value. */
  include<T>(part: Completed<T>): T {
    // Not spread into push: a bad ball map may bring a million issues.
    for (const issue of part.issues) this.issues.push(issue)
    for (const assumption of part.assumptions) this.assumptions.push(assumption)
    return part.value
  }

  /** The value together with the notes; null in its place when an error was noted. */
  complete<T>(value: T | null): Completed<T | null> {
    const failed = this.issues.some((issue) => issue.severity === 'error')
    return this.keep(failed ? null : value)
  }

  /** The value together with the notes, errors or not: what is left is good enough to check more with. */
  keep<T>(value: T): Completed<T> {
    return { value, issues: this.issues, assumptions: this.assumptions }
  }
}

export function issueAt(
  severity: Issue['severity'],
  context: Pick<ReadingContext, 'file' | 'locate'>,
  path: Path,
  problem: Problem,
): Issue {
  const place = formatPath(path)
  const subject = place === '' ? context.file : place
  const message = problem.message ?? `${subject} is ${problem.found}; allowed: ${problem.allowed}.`
  return {
    severity,
    file: context.file,
    path: place,
    ...context.locate(path),
    found: problem.found,
    allowed: problem.allowed,
    message,
  }
}
