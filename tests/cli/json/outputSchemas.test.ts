import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { SCHEMA_NAMES, schemaFile } from '../../../src/cli/commands/schema.ts'
import { indentedJson } from '../../../src/cli/json/jsonText.ts'
import { outputJsonSchema, OUTPUTS } from '../../../src/cli/json/outputSchemas.ts'

const names = Object.keys(OUTPUTS) as (keyof typeof OUTPUTS)[]

describe('the published schemas', () => {
  it.each(names)('of %s is what the code says; else run reference/schemas/generate.ts', (name) => {
    expect(readFileSync(schemaFile(name), 'utf8')).toBe(indentedJson(outputJsonSchema(name)))
  })

  it('exist for every name that the command offers', () => {
    expect([...SCHEMA_NAMES].sort()).toEqual(['board', ...names].sort())
    for (const name of SCHEMA_NAMES) {
      expect(JSON.parse(readFileSync(schemaFile(name), 'utf8'))).toMatchObject({
        $schema: 'https://json-schema.org/draft/2020-12/schema',
      })
    }
  })

  it('allow no key that they do not name', () => {
    const open: string[] = []
    const walk = (value: unknown, path: string): void => {
      if (typeof value !== 'object' || value === null) return
      const node = value as Record<string, unknown>
      if (node['type'] === 'object' && node['additionalProperties'] !== false) open.push(path)
      for (const [key, inner] of Object.entries(node)) walk(inner, `${path}/${key}`)
    }
    for (const name of names) walk(outputJsonSchema(name), name)
    expect(open).toEqual([])
  })
})
