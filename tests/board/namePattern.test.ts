import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { fitsPattern } from '../../src/board/namePattern.ts'

/** The same rule said by the language's own regular expressions. */
function byRegularExpression(name: string, pattern: string): boolean {
  const source = pattern
    .replace(/[.+^${}()|[\]\\]/g, '\\$&')
    .replaceAll('*', '.*')
    .replaceAll('?', '.')
  return new RegExp(`^${source}$`, 's').test(name)
}

describe('name patterns', () => {
  it.each([
    ['DQ0', 'DQ*', true],
    ['DQS_P', 'DQ?', false],
    ['A', '*', true],
    ['', '*', true],
    ['', '?', false],
    ['a+b', 'a+b', true],
    ['aab', 'a+b', false],
  ])('%s by %s: %s', (name, pattern, fits) => {
    expect(fitsPattern(name, pattern)).toBe(fits)
  })

  it('agree with regular expressions', () => {
    const letters = fc.string({ unit: fc.constantFrom('a', 'b', '*', '?', '+'), maxLength: 8 })
    const name = fc.string({ unit: fc.constantFrom('a', 'b', '+'), maxLength: 10 })
    fc.assert(
      fc.property(name, letters, (text, pattern) => {
        expect(fitsPattern(text, pattern)).toBe(byRegularExpression(text, pattern))
      }),
      { seed: 2, numRuns: 3000 },
    )
  })

  it('answer at once where a backtracking matcher would take ages', () => {
    expect(fitsPattern('a'.repeat(3000), `${'*a'.repeat(30)}b`)).toBe(false)
  })
})
