import type { Issue } from './issue.ts'
import { NONE_OF_THEM } from './schema/explain.ts'

/** More problems than this are counted, not listed. */
const MAX_ISSUES = 500

/** Errors first, then by line within a file; beyond a limit only their number. */
export function inOrder(issues: readonly Issue[]): Issue[] {
  const files = [...new Set(issues.map(({ file }) => file))]
  const rank = new Map(files.map((file, index) => [file, index]))
  const key = (issue: Issue): number[] => [
    issue.severity === 'error' ? 0 : 1,
    rank.get(issue.file) ?? 0,
    issue.line ?? 0,
    issue.column ?? 0,
  ]
  const sorted = issues
    .map((issue) => ({ issue, key: key(issue) }))
    .sort((a, b) => a.key.map((value, index) => value - (b.key[index] ?? 0)).find((step) => step !== 0) ?? 0)
    .map(({ issue }) => issue)
  const [first] = sorted
  if (sorted.length <= MAX_ISSUES || first === undefined) return sorted
  return [...sorted.slice(0, MAX_ISSUES), remainder(first, sorted.length - MAX_ISSUES)]
}

function remainder(first: Issue, count: number): Issue {
  const message = `There are ${count} more problems.`
  return {
    ...first,
    path: '',
    line: null,
    column: null,
    found: `${count} more problems`,
    allowed: 'none',
    message,
  }
}

/**
 * Issues of the schema and of the later stages as one list. What the schema refused is left out before
 * the later stages, which then miss it: their complaints about the same place say nothing new.
 */
export function withoutEchoes(schema: readonly Issue[], later: readonly Issue[]): Issue[] {
  const file = schema[0]?.file
  const places = new Set(schema.map(({ path }) => path))
  // Groups that lost a key, misspelt perhaps, and may have had no other.
  const robbed = new Set(schema.map(({ path }) => path.replace(/(\.[\w-]+|\[".*"\])$/, '')))
  const isEcho = ({ file: where, path, found }: Issue): boolean =>
    where === file &&
    (around(path).some((place) => places.has(place)) || (found === NONE_OF_THEM && robbed.has(path)))
  return [...schema, ...later.filter((issue) => !isEcho(issue))]
}

/** A place and all groups around it: `a.b[1]` lies in `a.b`, in `a` and in the whole. */
function around(path: string): string[] {
  const ends = Array.from(path.matchAll(/[.[]/g), (match) => match.index)
  return [path, ...ends.map((end) => path.slice(0, end)), '']
}
