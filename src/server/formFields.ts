import type { Board } from '../board/board.ts'
import type { CopperLayer } from '../board/stackup.ts'
import { refusalText } from '../report/pages/form.ts'
import type { FieldProblem } from '../report/pages/form.ts'
import { parseQuantity } from '../units/parse.ts'
import type { Dimension } from '../units/parse.ts'

/** What was typed, by field name; fields that came twice or not as text are left out. */
export function typedFields(query: unknown): Record<string, string> {
  if (typeof query !== 'object' || query === null) return {}
  const texts = Object.entries(query).filter(
    (entry): entry is [string, string] => typeof entry[1] === 'string',
  )
  return Object.fromEntries(texts)
}

/** Reads the fields of one form, gathering every problem. */
export class FormReader {
  readonly problems: FieldProblem[] = []
  readonly #typed: Readonly<Record<string, string>>

  constructor(typed: Readonly<Record<string, string>>) {
    this.#typed = typed
  }

  isEmpty(field: string): boolean {
    return (this.#typed[field] ?? '').trim() === ''
  }

  text(field: string): string {
    return (this.#typed[field] ?? '').trim()
  }

  refuse(field: string, text: string): null {
    this.problems.push({ field, text })
    return null
  }

  /** Null, with a problem noted, where the field does not hold a quantity above 0 of that dimension. */
  async quantity(field: string, dimension: Dimension): Promise<number | null> {
    const text = this.text(field)
    let reading = parseQuantity(text, dimension, null)
    if (!reading.ok && reading.needsArithmetic === true) {
      const { arithmetic } = await import('../units/arithmetic.ts')
      reading = parseQuantity(text, dimension, arithmetic)
    }
    if (!reading.ok) return this.refuse(field, refusalText(reading.found, reading.allowed))
    return reading.value > 0 ? reading.value : this.refuse(field, refusalText(text, 'a value above 0'))
  }

  /** Null for an empty field, without a problem. */
  async optionalQuantity(field: string, dimension: Dimension): Promise<number | null> {
    return this.isEmpty(field) ? null : this.quantity(field, dimension)
  }

  /** Number of a copper layer that can carry a trace, given by name or number. */
  layer(field: string, { stackup }: Board): number | null {
    const wanted = this.text(field)
    const named =
      (text: string) =>
      (layer: CopperLayer): boolean =>
        layer.name === text || String(layer.number) === text
    const found = stackup.copper.find(named(wanted))
    if (found !== undefined && found.role !== 'plane') return found.number
    const usable = stackup.copper.filter((layer) => layer.role !== 'plane').map((layer) => layer.name)
    const what = wanted === '' ? 'nothing' : `"${wanted}"${found === undefined ? '' : ', which is a plane'}`
    return this.refuse(
      field,
      refusalText(what, `a layer of this board that carries traces: ${usable.join(', ')}`),
    )
  }

  /** Runs a pipeline that throws RangeError for what a board cannot carry; its message becomes a problem. */
  attempt<Result>(run: () => Result): Result | null {
    try {
      return run()
    } catch (error) {
      if (!(error instanceof RangeError)) throw error
      return this.refuse('', error.message)
    }
  }
}
