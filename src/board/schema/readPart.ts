import type { z } from 'zod'
import type { Path } from '../document/path.ts'
import { Notes } from '../notes.ts'
import { explain, MISSING, type PlacedProblem } from './explain.ts'
import { without } from './without.ts'

/** One part of a list and where it stands; null text where the part cannot be used. */
export interface Part<T> {
  readonly path: Path
  /** Its name, as far as it can be told even from a part with errors. */
  readonly name: string | null
  readonly text: T | null
}

/** Notes of the sections, which also remember whether some quantity was arithmetic that nobody did. */
export class SectionNotes extends Notes {
  needsArithmetic = false
}

/** Times that a part is tried again with what was wrong left out. */
const MAX_TRIES = 5

/**
 * The value as the schema makes it, its problems noted. What is wrong is left out and the rest is
 * read, so that later stages find what else there is; null where nothing usable is left.
 */
export function readPart<T>(schema: z.ZodType<T>, value: unknown, path: Path, notes: SectionNotes): T | null {
  let left = value
  for (let round = 0; round < MAX_TRIES; round += 1) {
    const result = schema.safeParse(left)
    if (result.success) return result.data
    const problems = result.error.issues.flatMap((issue) => explain(issue, left, schema))
    if (round === 0) note(problems, path, notes)
    left = problems.reduce((rest, problem) => without(rest, placeToDrop(problem)), left)
    if (left === undefined) return null
  }
  return null
}

function note(problems: readonly PlacedProblem[], path: Path, notes: SectionNotes): void {
  for (const { path: place, needsArithmetic, ...problem } of problems) {
    notes.error([...path, ...place], problem)
    notes.needsArithmetic ||= needsArithmetic === true
  }
}

/** What is missing cannot be dropped; the group that lacks it can. */
function placeToDrop({ path, found }: PlacedProblem): Path {
  return found === MISSING ? path.slice(0, -1) : path
}
