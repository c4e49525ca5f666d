import { expect } from 'vitest'

export interface RecordedTest {
  readonly title: string
  readonly body: () => unknown
}

type Register = (title: string, body: () => unknown) => void

/**
 * Stands in for vitest in a test file: `it` records instead of running, `expect` is vitest's own. What a test file
 * needs beyond describe, it, test, their `each` and expect is not there, and shows as an error when it loads.
 */
export function recorder(tests: RecordedTest[]): Readonly<Record<string, unknown>> {
  const groups: string[] = []
  const describe: Register = (title, body) => {
    groups.push(title)
    body()
    groups.pop()
  }
  const it: Register = (title, body) => {
    tests.push({ title: [...groups, title].join(' > '), body })
  }
  const test = Object.assign(it, { each: each(it) })
  return { describe: Object.assign(describe, { each: each(describe) }), it: test, test, expect }
}

type Cases = (rows: readonly unknown[]) => (title: string, body: (...row: unknown[]) => unknown) => void

function each(register: Register): Cases {
  return (rows) => (title, body) => {
    rows.forEach((row, index) => {
      register(`${title} [${index}]`, () => (Array.isArray(row) ? body(...(row as unknown[])) : body(row)))
    })
  }
}
