import { BALL_NAME_RULE, parseBallName } from '../ballName.ts'
import type { Path } from '../document/path.ts'
import { issueAt, type Notes, type Problem } from '../notes.ts'
import type { PackageText } from '../schema/packageSchema.ts'
import { readBallMap, type BallMap } from './ballMap.ts'

/** What the map, inline or CSV, says of one ball. */
export interface BallEntry {
  readonly ball: string
  readonly net: string | null
  readonly pinFunction: string | null
  readonly x: string | null
  readonly y: string | null
  /** Where it says so: a place in the description, or a line of the CSV. */
  readonly origin: { readonly path: Path } | { readonly file: string; readonly line: number }
}

export interface BallEntries {
  /** By ball, in capitals. */
  readonly entries: ReadonlyMap<string, BallEntry>
  /** False where the description has no ball map of any kind. */
  readonly present: boolean
}

/** Reads files that lie beside the description; null where there is none of that name. */
export type Companion = (name: string) => Uint8Array | null

/**
 * Joins inline nets and the ball-map file. Nets of the two must not contradict each other; a net that
 * only stands in for a pin function gives way to an inline one.
 */
export function ballEntries(text: PackageText, path: Path, companion: Companion, notes: Notes): BallEntries {
  const map = text.ball_map === undefined ? null : openBallMap(text.ball_map, path, companion, notes)
  const entries = new Map((map === null ? [] : mappedEntries(map, text)).map((entry) => [entry.ball, entry]))
  for (const [key, net] of Object.entries(text.nets ?? {})) {
    const place = [...path, 'nets', key]
    const ball = key.trim().toUpperCase()
    const earlier = entries.get(ball)
    if (parseBallName(ball) === null) {
      const message = `"${key}" is no ball name; one has ${BALL_NAME_RULE}.`
      notes.error(place, { found: `"${key}"`, allowed: BALL_NAME_RULE, message })
    } else if (earlier !== undefined && map?.hasNets === true && earlier.net !== net) {
      reportContradiction(earlier, ball, net, place, notes)
    } else {
      entries.set(ball, { ...(earlier ?? NO_COLUMNS), ball, net, origin: { path: place } })
    }
  }
  return { entries, present: text.ball_map !== undefined || text.nets !== undefined }
}

const NO_COLUMNS = { pinFunction: null, x: null, y: null }

/** Rows of the file; where it has no nets, the function after the prefix stands for one. */
function mappedEntries(map: BallMap, { net_prefix: prefix = '' }: PackageText): BallEntry[] {
  return map.rows.map((row) => {
    const net = map.hasNets ? row.net : named(row.pinFunction, prefix)
    const { ball, pinFunction, x, y, line } = row
    return { ball, pinFunction, x, y, net: net === '' ? null : net, origin: { file: map.file, line } }
  })
}

function named(pinFunction: string | null, prefix: string): string | null {
  return pinFunction === null || pinFunction === '' ? null : prefix + pinFunction
}

function openBallMap(name: string, path: Path, companion: Companion, notes: Notes): BallMap | null {
  const bytes = companion(name)
  if (bytes === null) {
    notes.error([...path, 'ball_map'], {
      found: `"${name}", which is not there`,
      allowed: 'a file beside the description',
      message: `The ball map "${name}" is not found beside ${notes.context.file}.`,
    })
    return null
  }
  const map = readBallMap(name, bytes)
  for (const issue of map.issues) notes.issues.push(issue)
  return map
}

function reportContradiction(
  earlier: BallEntry,
  ball: string,
  net: string | null,
  place: Path,
  notes: Notes,
): void {
  const there =
    'line' in earlier.origin ? `${earlier.origin.file} line ${earlier.origin.line}` : 'an earlier line'
  notes.error(place, {
    found: `net ${net ?? 'none'} on ball ${ball}`,
    allowed: `net ${earlier.net ?? 'none'}, as in ${there}`,
    message: `Ball ${ball} has net ${net ?? 'none'} here and net ${earlier.net ?? 'none'} in ${there}.`,
  })
}

/** Notes an error where the map says the thing: in the description or in the CSV file. */
export function reportEntry({ origin }: BallEntry, problem: Problem, notes: Notes): void {
  if ('path' in origin) notes.error(origin.path, problem)
  else {
    const locate = (): { line: number; column: null } => ({ line: origin.line, column: null })
    notes.issues.push(issueAt('error', { file: origin.file, locate }, [], problem))
  }
}
