/**
 * Writes the published JSON Schemas of what the commands print beside this file:
 *
 *     node --import tsx reference/schemas/generate.ts
 */
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { indentedJson } from '../../src/cli/json/jsonText.ts'
import { outputJsonSchema, OUTPUTS } from '../../src/cli/json/outputSchemas.ts'

for (const name of Object.keys(OUTPUTS) as (keyof typeof OUTPUTS)[]) {
  writeFileSync(join(import.meta.dirname, `${name}.schema.json`), indentedJson(outputJsonSchema(name)))
}
