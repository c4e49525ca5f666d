import { z } from 'zod'
import type { Path } from '../document/path.ts'

/** Keys that a schema knows at a place, for "did you mean". */
export function keysAt(schema: z.ZodType, path: Path): string[] {
  return alternatives(schema, path).flatMap((part) =>
    part instanceof z.ZodObject ? Object.keys(part.shape) : [],
  )
}

/** Every schema that may hold at a place; more than one where there is a union on the way. */
function alternatives(schema: unknown, path: Path): unknown[] {
  if (schema instanceof z.ZodOptional) return alternatives(schema.unwrap(), path)
  if (schema instanceof z.ZodPipe) return alternatives(schema.in, path)
  if (schema instanceof z.ZodUnion) return schema.options.flatMap((option) => alternatives(option, path))
  const [step, ...rest] = path
  if (step === undefined) return [schema]
  if (schema instanceof z.ZodArray) return alternatives(schema.element, rest)
  if (schema instanceof z.ZodObject) return step in schema.shape ? alternatives(schema.shape[step], rest) : []
  return []
}
