import { z } from 'zod'
import { boardSchemas } from './boardSchema.ts'
import { leavesWith } from './leaves.ts'

/**
 * JSON Schema (draft 2020-12) of a board description, for editors and other programs. It says what
 * keys there are and what kind of value each takes; units, and references from part to part, are
 * checked by `readBoard` alone.
 */
export function boardJsonSchema(): Record<string, unknown> {
  const part = boardSchemas(leavesWith(null))
  const { mask, copper, core, prepreg, header } = part.layer
  const whole = part.top.extend({
    stackup: header.extend({
      layers: z
        .array(z.union([mask, copper, core, prepreg]))
        .min(1)
        .max(200),
    }),
    vias: z.array(part.via),
    fabrication: part.fabrication.optional(),
    packages: z.array(part.package).min(1),
    classes: z.array(part.class).optional(),
    nets: z.array(part.net).optional(),
    claims: z.array(part.claim).optional(),
    analysis: part.analysis.optional(),
  })
  const { $schema, ...rest } = z.toJSONSchema(whole, { io: 'input' })
  return { $schema, title: 'Board description', ...rest }
}

/** The schema as published in reference/schemas/board.schema.json. */
export function boardJsonSchemaText(): string {
  return `${JSON.stringify(boardJsonSchema(), null, 2)}\n`
}
