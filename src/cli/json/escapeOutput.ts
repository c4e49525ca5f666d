import { z } from 'zod'
import type { DrawnEscape } from './drawnEscape.ts'
import type { Envelope } from './envelope.ts'
import { opening } from './leaves.ts'
import { packageEscape } from './packageEscape.ts'

/** What `escape --json` prints. */
export interface EscapeOutput extends Envelope<'escape'> {
  readonly escapes: readonly DrawnEscape[]
}

/** Published as reference/schemas/escape.schema.json. */
export const escapeOutput: z.ZodType<EscapeOutput> = z
  .strictObject({ ...opening('escape'), escapes: z.array(packageEscape) })
  .meta({ title: 'Escape of every package of a board' })
