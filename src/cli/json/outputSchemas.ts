import { z } from 'zod'
import { compareOutput } from './compareOutput.ts'
import { dielectricOutput } from './dielectricOutput.ts'
import { escapeOutput } from './escapeOutput.ts'
import { lineOutput } from './lineOutput.ts'
import { reviewOutput } from './reviewOutput.ts'

/** What each command prints as JSON. */
export const OUTPUTS = {
  review: reviewOutput,
  line: lineOutput,
  escape: escapeOutput,
  dielectric: dielectricOutput,
  compare: compareOutput,
} as const

/** JSON Schema (draft 2020-12) of one output. */
export function outputJsonSchema(name: keyof typeof OUTPUTS): unknown {
  return z.toJSONSchema(OUTPUTS[name], { reused: 'inline' })
}
