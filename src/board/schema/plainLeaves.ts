import { z } from 'zod'

/** A name or remark. Numbers are refused: a name that looks like one stands in quotes. */
export const text: z.ZodType<string, string> = z.string().trim().min(1).max(500)

/** A count, bare. */
export function whole(min: number, max: number): z.ZodType<number, number> {
  return z.int().min(min).max(max)
}

/** A copper layer by name or number. */
export const layerReference: z.ZodType<string | number, string | number> = z.union([
  z.int().min(1).max(100),
  text,
])
