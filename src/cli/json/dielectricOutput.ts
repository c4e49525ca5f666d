import { z } from 'zod'
import type { ThicknessChoice } from '../../dielectric/thicknessChoice.ts'
import type { Envelope } from './envelope.ts'
import { opening } from './leaves.ts'
import { thicknessChoice } from './thicknessChoice.ts'

/** What `dielectric --json` prints: one choice for a stated trace, one for each layer of a class. */
export interface DielectricOutput extends Envelope<'dielectric'> {
  readonly choices: readonly ThicknessChoice[]
}

/** Published as reference/schemas/dielectric.schema.json. */
export const dielectricOutput: z.ZodType<DielectricOutput> = z
  .strictObject({ ...opening('dielectric'), choices: z.array(thicknessChoice) })
  .meta({ title: 'Dielectric thickness that brings a trace to its target' })
