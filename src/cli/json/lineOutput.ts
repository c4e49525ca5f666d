import { z } from 'zod'
import type { LineImpedance } from '../../impedance/estimate.ts'
import type { LineRequest } from '../../section/crossSection.ts'
import type { ProcessSpread } from '../../tolerance/processSpread.ts'
import { lineRequest } from './crossSection.ts'
import type { Envelope } from './envelope.ts'
import { opening } from './leaves.ts'
import { lineImpedance } from './lineImpedance.ts'
import { processSpread } from './processSpread.ts'

/** What `line --json` prints, and each line of `line --queries`. */
export interface LineOutput extends Envelope<'line'> {
  /** The id that came with the query, null where none did. */
  readonly id: string | number | null
  readonly request: LineRequest
  readonly line: LineImpedance
  readonly process: ProcessSpread | null
}

/** Published as reference/schemas/line.schema.json. */
export const lineOutput: z.ZodType<LineOutput> = z
  .strictObject({
    ...opening('line'),
    id: z.union([z.string(), z.number(), z.null()]),
    request: lineRequest,
    line: lineImpedance,
    process: processSpread.nullable().meta({
      description: 'null where the line does not come out at an end of its tolerances',
    }),
  })
  .meta({ title: 'Impedance of one line' })
