import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { BadInput, problemWith } from '../badInput.ts'
import { fileTrouble } from '../fileTrouble.ts'
import { packageRoot } from '../packageRoot.ts'
import type { Shell } from '../shell.ts'

/** Published schemas: of the description, and of what each command prints as JSON. */
const SCHEMA_NAMES = ['board', 'review', 'line', 'escape', 'dielectric', 'compare'] as const

/** Path of a published schema. */
function schemaFile(name: string): string {
  return join(packageRoot(), 'reference/schemas', `${name}.schema.json`)
}

/** Prints one published JSON Schema. */
export function schemaCommand(name: string, shell: Shell): void {
  if (!SCHEMA_NAMES.some((known) => known === name)) {
    throw new BadInput([problemWith('schema', `"${name}"`, SCHEMA_NAMES.join(', '))])
  }
  try {
    shell.write(readFileSync(schemaFile(name), 'utf8'))
  } catch (error) {
    const trouble = fileTrouble(schemaFile(name), error)
    if (trouble === null) throw error
    throw new BadInput([trouble])
  }
}
