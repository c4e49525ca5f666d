import { parseQuantity, type Dimension } from '../units/parse.ts'
import { problemWith } from './badInput.ts'

/** Reads one quantity into SI; what is wrong with it goes to `problems`, and null comes back. */
export async function quantityOption(
  place: string,
  text: unknown,
  dimension: Dimension,
  problems: string[],
): Promise<number | null> {
  let reading = parseQuantity(text, dimension, null)
  if (!reading.ok && reading.needsArithmetic === true) {
    const { arithmetic } = await import('../units/arithmetic.ts')
    reading = parseQuantity(text, dimension, arithmetic)
  }
  if (!reading.ok) {
    problems.push(problemWith(place, reading.found, reading.allowed))
    return null
  }
  if (!(reading.value > 0)) {
    problems.push(problemWith(place, String(text), 'a value above 0'))
    return null
  }
  return reading.value
}
