/**
 * Values of a function of its key alone, kept once computed: remembering changes no result. When `most` are kept the
 * oldest goes first.
 *
 * Throws RangeError unless `most` is a whole number from 1.
 */
export class BoundedMemory<Value> {
  readonly #values = new Map<string, Value>()
  readonly #most: number

  constructor(most: number) {
    if (!(Number.isInteger(most) && most >= 1)) throw new RangeError(`a memory keeps at least 1, got ${most}`)
    this.#most = most
  }

  /** The value of a key, made when it is not known. */
  recall(key: string, make: () => Value): Value {
    const kept = this.#values.get(key)
    if (kept !== undefined) return kept
    const made = make()
    const [oldest] = this.#values.size < this.#most ? [] : this.#values.keys()
    if (oldest !== undefined) this.#values.delete(oldest)
    this.#values.set(key, made)
    return made
  }
}
