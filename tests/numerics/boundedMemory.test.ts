import { describe, expect, it } from 'vitest'
import { BoundedMemory } from '../../src/numerics/boundedMemory.ts'

describe('BoundedMemory', () => {
  it('makes a value once and forgets the oldest when it is full', () => {
    const memory = new BoundedMemory<string>(2)
    const made: string[] = []
    const recall = (key: string): string =>
      memory.recall(key, () => {
        made.push(key)
        return key.toUpperCase()
      })
    expect(['a', 'b', 'a', 'c', 'b', 'a'].map(recall)).toEqual(['A', 'B', 'A', 'C', 'B', 'A'])
    expect(made).toEqual(['a', 'b', 'c', 'a'])
  })

  it('remembers null', () => {
    const memory = new BoundedMemory<null>(1)
    let made = 0
    const make = (): null => ((made += 1), null)
    expect([memory.recall('a', make), memory.recall('a', make)]).toEqual([null, null])
    expect(made).toBe(1)
  })

  it.each([0, -1, 1.5, NaN])('refuses to keep %f values', (most) => {
    expect(() => new BoundedMemory(most)).toThrow('a memory keeps at least 1')
  })
})
