import { z } from 'zod'
import type { Assumption } from '../../units/assumption.ts'
import type { Point } from '../../units/quantity.ts'
import { FORMATS, type BoardReference } from './envelope.ts'

/** A number with its unit as description; NaN and infinity cannot occur. */
function number(description: string): z.ZodNumber {
  return z.number().meta({ description })
}

export const metres: z.ZodNumber = number('metres')
export const seconds: z.ZodNumber = number('seconds')
export const hertz: z.ZodNumber = number('hertz')
export const ohms: z.ZodNumber = number('ohms')
export const ratio: z.ZodNumber = number('fraction; 0.1 is 10 %')
export const band: z.ZodNumber = number('half-width of the error band, as a fraction of the value')
export const secondsPerMetre: z.ZodNumber = number('seconds per metre')
export const nepersPerMetre: z.ZodNumber = number('nepers per metre; 1 Np is 8.6859 dB')
export const farads: z.ZodNumber = number('farads')
export const faradsPerMetre: z.ZodNumber = number('farads per metre')
export const henriesPerMetre: z.ZodNumber = number('henries per metre')
export const ohmMetres: z.ZodNumber = number('ohm metres')
export const plain: z.ZodNumber = number('a pure number')
export const count: z.ZodNumber = z.number().int().nonnegative()
export const layer: z.ZodNumber = z
  .number()
  .int()
  .positive()
  .meta({ description: 'copper layer, 1 at the top' })

export const point: z.ZodType<Point> = z.strictObject({ x: metres, y: metres }).meta({
  id: 'Point',
  description: "In the package's own frame: origin in the middle of the grid, row A at the top, y upwards",
})

const assumption: z.ZodType<Assumption> = z
  .strictObject({ path: z.string(), quantity: z.string(), value: z.string(), source: z.string() })
  .meta({ id: 'Assumption', description: 'A value that the description left out and the tool filled in' })

export const assumed: z.ZodType<readonly Assumption[]> = z.array(assumption)

const boardReference: z.ZodType<BoardReference> = z.strictObject({
  file: z.string(),
  title: z.string(),
  revision: z.string().nullable(),
  author: z.string().nullable(),
  date: z.string().nullable(),
})

/** Keys that open every output. */
export function opening<Format extends keyof typeof FORMATS>(
  format: Format,
): {
  schema: z.ZodLiteral<(typeof FORMATS)[Format]>
  version: z.ZodString
  board: z.ZodType<BoardReference>
} {
  return {
    schema: z.literal(FORMATS[format]),
    version: z.string().meta({ description: 'version of the tool' }),
    board: boardReference,
  }
}
