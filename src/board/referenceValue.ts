import { parseQuantity, type Dimension } from '../units/parse.ts'

/** A quantity of a reference table in SI. Throws RangeError where the table is wrong: that is our fault, not the reader's. */
export function referenceValue(text: unknown, dimension: Dimension): number {
  const reading = parseQuantity(text, dimension, null)
  if (!reading.ok) throw new RangeError(`reference table has ${reading.found}, wanted ${reading.allowed}`)
  return reading.value
}

/** A value of a reference table with the source it has there. */
export interface Sourced {
  readonly value: number
  readonly source: string
}

export function sourced(
  entry: { readonly value: string; readonly source: string },
  dimension: Dimension,
): Sourced {
  return { value: referenceValue(entry.value, dimension), source: entry.source }
}
