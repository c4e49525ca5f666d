import type { z } from 'zod'
import type { Path } from '../document/path.ts'
import type { Notes } from '../notes.ts'
import { explain } from './explain.ts'

/** One part of a list and where it stands; null text where the part cannot be used. */
export interface Part<T> {
  readonly path: Path
  /** Its name, as far as it can be told even from a part with errors. */
  readonly name: string | null
  readonly text: T | null
}

/** The value as the schema makes it, or null with its problems noted. */
export function readPart<T>(schema: z.ZodType<T>, value: unknown, path: Path, notes: Notes): T | null {
  const result = schema.safeParse(value)
  if (result.success) return result.data
  for (const issue of result.error.issues) {
    for (const { path: place, ...problem } of explain(issue, value, schema))
      notes.error([...path, ...place], problem)
  }
  return null
}
