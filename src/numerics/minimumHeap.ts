/** A binary heap of whole numbers, each with a key: the one with the smallest key comes out first. */
export class MinimumHeap {
  #keys = new Float64Array(256)
  #items = new Int32Array(256)
  #size = 0

  get size(): number {
    return this.#size
  }

  clear(): void {
    this.#size = 0
  }

  push(key: number, item: number): void {
    if (this.#size === this.#items.length) this.#grow()
    const keys = this.#keys
    const items = this.#items
    let place = this.#size
    this.#size += 1
    while (place > 0) {
      const above = (place - 1) >> 1
      const aboveKey = keys[above] ?? 0
      if (aboveKey <= key) break
      keys[place] = aboveKey
      items[place] = items[above] ?? 0
      place = above
    }
    keys[place] = key
    items[place] = item
  }

  /** Smallest key; Infinity when empty. */
  get smallestKey(): number {
    return this.#size === 0 ? Infinity : (this.#keys[0] ?? Infinity)
  }

  /** Removes and returns the item with the smallest key. Throws RangeError when empty. */
  pop(): number {
    if (this.#size === 0) throw new RangeError('the heap is empty')
    const keys = this.#keys
    const items = this.#items
    const first = items[0] ?? 0
    this.#size -= 1
    const size = this.#size
    const key = keys[size] ?? 0
    const item = items[size] ?? 0
    let place = 0
    for (;;) {
      let below = 2 * place + 1
      if (below >= size) break
      if (below + 1 < size && (keys[below + 1] ?? 0) < (keys[below] ?? 0)) below += 1
      const belowKey = keys[below] ?? 0
      if (belowKey >= key) break
      keys[place] = belowKey
      items[place] = items[below] ?? 0
      place = below
    }
    keys[place] = key
    items[place] = item
    return first
  }

  #grow(): void {
    const keys = new Float64Array(2 * this.#keys.length)
    const items = new Int32Array(2 * this.#items.length)
    keys.set(this.#keys)
    items.set(this.#items)
    this.#keys = keys
    this.#items = items
  }
}
