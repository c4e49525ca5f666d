import { describe, expect, it } from 'vitest'
import { indentedJson } from '../../../src/cli/json/jsonText.ts'
import { outputJsonSchema, OUTPUTS } from '../../../src/cli/json/outputSchemas.ts'
import { run } from '../testShell.ts'

const names = Object.keys(OUTPUTS) as (keyof typeof OUTPUTS)[]

describe('the published schemas', () => {
  it.each(names)('of %s is what the code says; else run reference/schemas/generate.ts', async (name) => {
    expect((await run(['schema', name])).out).toBe(indentedJson(outputJsonSchema(name)))
  })

  it('exist for every name that the command offers', async () => {
    const { err } = await run(['schema', 'none of them'])
    const offered = err
      .slice(err.indexOf('allowed: ') + 'allowed: '.length)
      .trim()
      .split(', ')
    expect(offered.toSorted()).toEqual(['board', ...names].toSorted())
    for (const name of offered) {
      expect(JSON.parse((await run(['schema', name])).out)).toMatchObject({
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
