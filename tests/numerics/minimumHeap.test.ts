import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { MinimumHeap } from '../../src/numerics/minimumHeap.ts'

describe('a heap with the smallest key on top', () => {
  it('gives out its items in the order of their keys, beyond its first size', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ noNaN: true }), { maxLength: 700 }), (keys) => {
        const heap = new MinimumHeap()
        for (const [item, key] of keys.entries()) heap.push(key, item)
        expect(heap.size).toBe(keys.length)
        const out = keys.map(() => keys[heap.pop()] ?? NaN)
        expect(out).toEqual(keys.toSorted((a, b) => a - b))
      }),
      { seed: 3, numRuns: 100 },
    )
  })

  it('knows its smallest key while items come and go', () => {
    const heap = new MinimumHeap()
    expect(heap.smallestKey).toBe(Infinity)
    heap.push(3, 30)
    heap.push(1, 10)
    expect(heap.smallestKey).toBe(1)
    expect(heap.pop()).toBe(10)
    heap.push(2, 20)
    expect([heap.pop(), heap.pop()]).toEqual([20, 30])
    expect(() => heap.pop()).toThrow(RangeError)
  })

  it('is empty once cleared', () => {
    const heap = new MinimumHeap()
    heap.push(1, 1)
    heap.clear()
    expect(heap.size).toBe(0)
  })
})
