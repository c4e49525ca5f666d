import { readFileSync } from 'node:fs'
import { resolve } from 'node:path'
import { describe, expect, it } from 'vitest'
import { boardJsonSchema, boardJsonSchemaText } from '../../../src/board/schema/boardJsonSchema.ts'

const PUBLISHED = resolve(import.meta.dirname, '../../../reference/schemas/board.schema.json')

/** The schema some keys down. */
function within(schema: SchemaNode | undefined, ...keys: string[]): SchemaNode | undefined {
  return keys.reduce<SchemaNode | undefined>((node, key) => node?.properties?.[key], schema)
}

interface SchemaNode {
  properties?: Record<string, SchemaNode>
  items?: SchemaNode
  required?: string[]
  anyOf?: SchemaNode[]
  additionalProperties?: unknown
  type?: string | string[]
  description?: string
}

describe('the JSON schema of a description', () => {
  it('is published as it is now (write it anew with reference/schemas/generateBoard.ts)', () => {
    expect(readFileSync(PUBLISHED, 'utf8')).toBe(boardJsonSchemaText())
  })

  it('names its dialect and every section', () => {
    const schema = boardJsonSchema() as SchemaNode
    expect(boardJsonSchema()['$schema']).toBe('https://json-schema.org/draft/2020-12/schema')
    expect(Object.keys(schema.properties ?? {}).sort()).toEqual(
      [
        ...['analysis', 'author', 'claims', 'classes', 'date', 'fabrication', 'nets', 'packages'],
        ...['revision', 'stackup', 'title', 'units', 'vias'],
      ].sort(),
    )
    expect(schema.required).toEqual(['title', 'stackup', 'vias', 'packages'])
  })

  it('describes the four kinds of layer and closes every group to unknown keys', () => {
    const schema = boardJsonSchema() as SchemaNode
    const kinds = within(schema, 'stackup', 'layers')?.items?.anyOf ?? []
    expect(kinds.map(({ required }) => required)).toEqual([['mask'], ['copper'], ['core'], ['prepreg']])
    expect(kinds.map(({ additionalProperties }) => additionalProperties)).toEqual([
      false,
      false,
      false,
      false,
    ])
  })

  it('wants lengths as texts, since their unit must be said, and lets ratios be numbers', () => {
    const schema = boardJsonSchema() as SchemaNode
    const copper = within(schema, 'stackup', 'layers')?.items?.anyOf?.[1]
    expect(copper?.properties?.['thickness']?.type).toBe('string')
    expect(copper?.properties?.['etch_factor']?.type).toEqual(['string', 'number'])
  })

  it('explains the wishes for an escape, and closes each of their groups to unknown keys', () => {
    const wishes = within(within(boardJsonSchema(), 'packages')?.items, 'escape')
    expect(wishes?.additionalProperties).toBe(false)
    const properties = wishes?.properties ?? {}
    expect(Object.keys(properties)).toEqual([
      ...['layers', 'priority', 'priority_layers', 'sides', 'keep_outs', 'apart'],
    ])
    const entries = ['sides', 'keep_outs', 'apart'].map((key) => within(wishes, key)?.items)
    const entry = within(wishes, 'priority')?.items?.anyOf
    for (const group of [...entries, entry?.[1]]) expect(group?.additionalProperties).toBe(false)
    for (const wish of Object.values(properties)) expect(wish.description).toMatch(/^[A-Z]/)
  })
})
