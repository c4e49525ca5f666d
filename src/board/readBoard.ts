/**
 * Text to board, in stages that each hand on a value and what is wrong with it:
 *
 *     text ─► document ─► plain values ─► sections ─► stackup, fabrication, vias, classes, packages, nets ─► Board
 *        document/                          schema/
 */
import type { Document, LineCounter } from 'yaml'
import type { Arithmetic } from '../units/parse.ts'
import type { Board } from './board.ts'
import { completeBoard } from './completeBoard.ts'
import { decodeText } from './document/decodeText.ts'
import { locator } from './document/locate.ts'
import { parseYaml, type TextProblem } from './document/parseYaml.ts'
import { plainValue } from './document/plainValue.ts'
import { inOrder, withoutEchoes } from './gatherIssues.ts'
import type { Issue } from './issue.ts'
import { issueAt, type ReadingContext } from './notes.ts'
import { readSections } from './schema/readSections.ts'

export interface BoardSource {
  /** Name for messages; its ending tells JSON from YAML. */
  readonly file: string
  readonly text: string | Uint8Array
  /** Bytes of a file that the description names, such as a ball map; null where there is none. */
  readonly companion: (name: string) => Uint8Array | null
}

export interface BoardReading {
  /** Null exactly when there is an issue of severity error. */
  readonly board: Board | null
  readonly issues: readonly Issue[]
}

/** A description is shorter; a hundred kilobytes describe 2,500 balls and 1,500 nets. */
const MAX_DESCRIPTION_BYTES = 10_000_000

/** Reads a description (YAML, or JSON) into a board, or lists everything that is wrong with it. */
export async function readBoard(source: BoardSource): Promise<BoardReading> {
  const decoded = decodeText(source.text, MAX_DESCRIPTION_BYTES)
  if (!decoded.ok) {
    const context = { file: source.file, locate: () => ({ line: decoded.line, column: null }) }
    return failure([issueAt('error', context, [], decoded)])
  }
  const parsed = parseYaml(decoded.text, isJson(source.file, decoded.text))
  if (parsed.document === null || parsed.problems.length > 0) {
    return failure(parsed.problems.map((problem) => textIssue(source.file, parsed.lines, problem)))
  }
  const plain = plainValue(parsed.document)
  const doubled = plain.problems.map((problem) => textIssue(source.file, parsed.lines, problem))
  if (plain.value === null && doubled.length > 0) return failure(doubled)
  return interpret(source, parsed.document, parsed.lines, plain.value, doubled)
}

async function interpret(
  source: BoardSource,
  document: Document.Parsed,
  lines: LineCounter,
  value: unknown,
  before: readonly Issue[],
): Promise<BoardReading> {
  const context: ReadingContext = {
    file: source.file,
    locate: locator(document, lines),
    displayUnit: displayUnitOf(value),
  }
  const plain = readSections(value, null, context)
  const read = plain.needsArithmetic ? readSections(value, await loadArithmetic(), context) : plain
  const { value: board, issues } = completeBoard(read.sections, source.companion, context)
  const all = [...before, ...withoutEchoes(read.issues, issues)]
  return all.some(({ severity }) => severity === 'error') ? failure(all) : { board, issues: inOrder(all) }
}

/** Loaded when the first sum or product turns up: it brings a large library along. */
async function loadArithmetic(): Promise<Arithmetic> {
  const { arithmetic } = await import('../units/arithmetic.ts')
  return arithmetic
}

function isJson(file: string, text: string): boolean {
  return /\.json$/i.test(file) || /^\s*\{\s*"/.test(text)
}

function displayUnitOf(value: unknown): 'mm' | 'mil' {
  return typeof value === 'object' && value !== null && 'units' in value && value.units === 'mil'
    ? 'mil'
    : 'mm'
}

function textIssue(file: string, lines: LineCounter, { offset, found, allowed }: TextProblem): Issue {
  const { line, col } = lines.linePos(offset)
  const place = `${file} line ${line}`
  const message = `${place} has ${found}; allowed: ${allowed}.`
  return { severity: 'error', file, path: '', line, column: col, found, allowed, message }
}

function failure(issues: readonly Issue[]): BoardReading {
  return { board: null, issues: inOrder(issues) }
}
