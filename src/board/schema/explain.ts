import { z } from 'zod'
import type { Path } from '../document/path.ts'
import { suggestion } from '../nearestWord.ts'
import type { Problem } from '../notes.ts'
import { keysAt } from './keysAt.ts'
import type { QuantityProblem } from './leaves.ts'

type SchemaIssue = z.core.$ZodIssue

export interface PlacedProblem extends Problem {
  readonly path: Path
  /** True where the value may be right and only arithmetic can tell. */
  readonly needsArithmetic?: boolean
}

/** What a schema has against a value, in plain English; a problem for each place. */
export function explain(issue: SchemaIssue, value: unknown, schema: z.ZodType): PlacedProblem[] {
  const path = plainPath(issue.path)
  const here = valueAt(value, path)
  if (issue.code === 'unrecognized_keys') {
    return issue.keys
      .slice(0, MAX_UNKNOWN_KEYS)
      .map((key) => unknownKey([...path, key], key, keysAt(schema, path)))
  }
  if (issue.code === 'invalid_union') return explainUnion(issue.errors, here, path, schema)
  return [{ path, ...(issue.code === 'custom' ? quantityProblem(issue) : simpleProblem(issue, here)) }]
}

/** Unknown keys of one group that are listed. */
const MAX_UNKNOWN_KEYS = 20

/** The option whose kind fits speaks for the union; where none fits, all are listed. */
function explainUnion(
  options: readonly (readonly SchemaIssue[])[],
  value: unknown,
  path: Path,
  schema: z.ZodType,
): PlacedProblem[] {
  const fitting = options.find(
    (issues) => !issues.some((issue) => issue.path.length === 0 && isMismatch(issue)),
  )
  if (fitting !== undefined) {
    return fitting.flatMap((issue) =>
      explain({ ...issue, path: [...path, ...issue.path] }, within(path, value), schema),
    )
  }
  const said = options.flatMap((issues) => issues.flatMap((issue) => explain(issue, value, schema)))
  const [first] = said
  if (isGroup(value) || first === undefined) {
    return [{ path, found: describe(value), allowed: listed(said.map((problem) => problem.allowed)) }]
  }
  const open = said.filter(({ allowed }) => !NO_SINGLE_VALUES.includes(allowed))
  const needsArithmetic = said.some((problem) => problem.needsArithmetic === true)
  return [{ path, found: first.found, allowed: listed(open.map(({ allowed }) => allowed)), needsArithmetic }]
}

function isMismatch(issue: SchemaIssue): boolean {
  return issue.code !== 'unrecognized_keys'
}

function unknownKey(path: Path, key: string, keys: readonly string[]): PlacedProblem {
  const allowed = `one of ${keys.join(', ')}`
  const near = suggestion(key, keys)
  return {
    path,
    found: `the key "${key}"`,
    allowed,
    message:
      near === ''
        ? `There is no key "${key}" here; allowed: ${allowed}.`
        : `There is no key "${key}" here${near}`,
  }
}

/** Quantities carry their own words. */
function quantityProblem(issue: z.core.$ZodIssueCustom): Omit<PlacedProblem, 'path'> {
  const { found, allowed, absent, needsArithmetic } = issue.params as QuantityProblem
  return { found: absent ? MISSING : found, allowed, needsArithmetic }
}

/** `found` of a value that is not there. */
export const MISSING = 'missing'

/** `found` of a group that has none of the keys of which it needs one. */
export const NONE_OF_THEM = 'none of them'

function simpleProblem(issue: SchemaIssue, value: unknown): Problem {
  const found = value === undefined ? MISSING : describe(value)
  const quoted = typeof value === 'number' && issue.code === 'invalid_type' && issue.expected === 'string'
  return { found, allowed: quoted ? `a text; in quotes, "${value}"` : allowedBy(issue) }
}

const KINDS: Readonly<Record<string, string>> = {
  string: 'a text',
  int: 'a whole number',
  number: 'a number',
  boolean: 'true or false',
  array: 'a list',
  tuple: 'a list of two',
  object: 'a group of keys',
  record: 'a group of names with values',
  null: 'nothing',
  // A part that has a schema of its own: here it only has to be there.
  nonoptional: 'a group of keys',
}

/** Not worth offering to somebody who wrote a single value. */
const NO_SINGLE_VALUES = [KINDS['object'], KINDS['record'], KINDS['null']]

function allowedBy(issue: SchemaIssue): string {
  if (issue.code === 'invalid_type') return KINDS[issue.expected] ?? `a ${issue.expected}`
  if (issue.code === 'invalid_value') return listed(issue.values.map((value) => String(value)))
  if (issue.code === 'too_small') return bounded('at least', issue.minimum, issue.origin)
  if (issue.code === 'too_big') return bounded('at most', issue.maximum, issue.origin)
  return issue.message
}

function bounded(words: string, limit: number | bigint, origin: string): string {
  if (origin === 'string') return limit === 1 ? 'a text that is not empty' : `${words} ${limit} characters`
  return origin === 'array' ? `${words} ${limit} in the list` : `${words} ${limit}`
}

/** `found` of a message: a short piece of the value itself. */
export function describe(value: unknown): string {
  if (value === undefined || value === null) return 'empty'
  if (typeof value === 'string') return `"${value.length > 40 ? `${value.slice(0, 40)}…` : value}"`
  if (typeof value === 'number' || typeof value === 'boolean') return String(value)
  return Array.isArray(value) ? `a list of ${value.length}` : 'a group of keys'
}

export function listed(words: readonly string[]): string {
  const unique = [...new Set(words)]
  const last = unique.pop() ?? ''
  return unique.length === 0 ? last : `${unique.join(', ')} or ${last}`
}

function isGroup(value: unknown): value is object {
  return typeof value === 'object' && value !== null
}

function valueAt(value: unknown, path: Path): unknown {
  return path.reduce<unknown>(
    (part, step) =>
      isGroup(part) ? (Object.getOwnPropertyDescriptor(part, step)?.value as unknown) : undefined,
    value,
  )
}

/** The inverse of `valueAt`: a value that holds `value` at `path`. */
function within(path: Path, value: unknown): unknown {
  return path.reduceRight<unknown>((part, step) => ({ [step]: part }), value)
}

function plainPath(path: readonly PropertyKey[]): (string | number)[] {
  return path.map((step) => (typeof step === 'symbol' ? String(step) : step))
}
