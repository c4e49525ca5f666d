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
    const first = this.#items[0] ?? 0
    this.#size -= 1
    this.#sink(this.#keys[this.#size] ?? 0, this.#items[this.#size] ?? 0)
    return first
  }

  /** Puts an item in at the top and lets it down to its place. */
  #sink(key: number, item: number): void {
    const keys = this.#keys
    const items = this.#items
    let place = 0
    for (;;) {
      const below = this.#smallerBelow(place)
      if (below === -1 || (keys[below] ?? 0) >= key) break
      keys[place] = keys[below] ?? 0
      items[place] = items[below] ?? 0
      place = below
    }
    keys[place] = key
    items[place] = item
  }

  /** The place below with the smaller key; −1 where there is none. */
  #smallerBelow(place: number): number {
    const left = 2 * place + 1
    if (left >= this.#size) return -1
    const right = left + 1
    return right < this.#size && (this.#keys[right] ?? 0) < (this.#keys[left] ?? 0) ? right : left
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
