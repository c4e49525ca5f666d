import { describe, expect, it } from 'vitest'
import { findLiterals, instrument } from './findLiterals.ts'

const TEXT = [
  "import { x } from './a3.ts' // not 7",
  'const A = 0.5',
  'export function f(list: readonly number[], sign: 1 | -1): number {',
  '  if (!(A > 0)) throw new RangeError(`needs ${0.8 * A}`)',
  "  return sign * list[3]! * (x - 1e-3) ** -2.5 + { 4: 'four' }[4].length",
  '}',
].join('\n')

describe('findLiterals', () => {
  it('finds every number of the program and says why some are skipped', () => {
    expect(findLiterals(TEXT).map(({ text, line, skipped }) => [text, line, skipped])).toEqual([
      ['0.5', 2, null],
      ['1', 3, 'type'],
      ['1', 3, 'type'],
      ['0', 4, 'zero'],
      ['0.8', 4, 'message'],
      ['3', 5, 'index'],
      ['1e-3', 5, null],
      ['2.5', 5, null],
      ['4', 5, 'key'],
      ['4', 5, 'index'],
    ])
  })

  it('puts each coefficient, and nothing else, behind a call with its place in the list', () => {
    const text = instrument(TEXT, findLiterals(TEXT), 'change')
    expect(text).toContain('const A = change(0, 0.5)')
    expect(text).toContain('(x - change(6, 1e-3)) ** -change(7, 2.5)')
    expect(text.match(/change/g)?.length).toBe(3)
  })
})
