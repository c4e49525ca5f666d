import { readFileSync } from 'node:fs'
import { problemWith } from './badInput.ts'
import { fileTrouble } from './fileTrouble.ts'
import { readLineQuestion, type LineQuestion, type LineWords } from './lineQuestion.ts'
import { STANDARD_OUTPUT } from './outputFile.ts'
import type { Shell } from './shell.ts'

/** One line of a file of queries. */
export interface LineQuery {
  /** Comes back with the answer. */
  readonly id: string | number | null
  /** File and line number. */
  readonly place: string
  readonly question: LineQuestion
}

const KEYS: readonly string[] = ['id', 'layer', 'width', 'gap', 'coplanarGap', 'withLayer'] satisfies (
  'id' | keyof LineWords
)[]

/**
 * Reads JSON Lines, `-` from standard input: `{"layer": "L3", "width": "80 um", "gap": "90 um"}`, one
 * query a line, blank lines skipped. Everything that is wrong goes to `problems`.
 */
export async function readQueries(file: string, shell: Shell, problems: string[]): Promise<LineQuery[]> {
  const text = await readText(file, shell, problems)
  const queries: LineQuery[] = []
  for (const [index, line] of text.split(/\r?\n/).entries()) {
    if (line.trim() === '') continue
    const query = await readQuery(
      line,
      `${file === STANDARD_OUTPUT ? 'standard input' : file}:${index + 1}`,
      problems,
    )
    if (query !== null) queries.push(query)
  }
  if (queries.length === 0 && problems.length === 0)
    problems.push(problemWith(file, 'no query', 'a JSON object a line'))
  return queries
}

async function readText(file: string, shell: Shell, problems: string[]): Promise<string> {
  try {
    return file === STANDARD_OUTPUT ? await shell.input() : readFileSync(file, 'utf8')
  } catch (error) {
    const trouble = fileTrouble(file === STANDARD_OUTPUT ? 'standard input' : file, error)
    if (trouble === null) throw error
    problems.push(trouble)
    return ''
  }
}

async function readQuery(line: string, place: string, problems: string[]): Promise<LineQuery | null> {
  const query = readObject(line)
  if (query === null) {
    problems.push(problemWith(place, shorten(line), `a JSON object with ${KEYS.join(', ')}`))
    return null
  }
  const { id = null, ...words } = query
  const before = problems.length
  for (const key of Object.keys(query).filter((name) => !KEYS.includes(name))) {
    problems.push(problemWith(place, `the key "${key}"`, KEYS.join(', ')))
  }
  if (id !== null && typeof id !== 'string' && typeof id !== 'number') {
    problems.push(problemWith(`${place}: id`, JSON.stringify(id), 'a text or a number'))
    return null
  }
  const question = await readLineQuestion(words, (part) => `${place}: ${part}`, problems)
  return problems.length > before ? null : { id, place, question }
}

function readObject(line: string): Record<string, unknown> | null {
  try {
    const value: unknown = JSON.parse(line)
    return typeof value === 'object' && value !== null && !Array.isArray(value) ? { ...value } : null
  } catch {
    return null
  }
}

function shorten(line: string): string {
  return line.length > 40 ? `${line.slice(0, 40)}…` : line
}
