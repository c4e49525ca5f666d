import { expect, it } from 'vitest'
import { groupBy } from '../../src/numerics/groupBy.ts'

it('keeps groups in the order of their first item and items in their own order', () => {
  expect([...groupBy(['ab', 'c', 'de', 'f'], (word) => word.length)]).toEqual([
    [2, ['ab', 'de']],
    [1, ['c', 'f']],
  ])
})
