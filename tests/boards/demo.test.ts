import { describe, expect, it } from 'vitest'
import { review } from '../../src/review.ts'
import { boardOf, DESCRIPTIONS } from './referenceBoards.ts'

async function codesOf(path: string): Promise<string[]> {
  const { findings } = review(await boardOf(path))
  return [...new Set(findings.map((finding) => finding.code))].toSorted((a, b) => a.localeCompare(b))
}

describe('the review of a shipped description', () => {
  it.each(DESCRIPTIONS)('of %s comes out the same twice', async (path) => {
    const once = JSON.stringify(review(await boardOf(path)))
    expect(JSON.stringify(review(await boardOf(path)))).toBe(once)
  })

  it.each(DESCRIPTIONS)('of %s holds no number that is not finite', async (path) => {
    const odd: string[] = []
    JSON.stringify(review(await boardOf(path)), (key, value: unknown) => {
      if (typeof value === 'number' && !Number.isFinite(value)) odd.push(key)
      return value
    })
    expect(odd).toEqual([])
  })
})
