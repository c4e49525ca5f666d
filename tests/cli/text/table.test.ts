import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { PAGE_WIDTH, pairs, paragraph, table } from '../../../src/cli/text/table.ts'

const words = fc.array(fc.stringMatching(/^[a-z]{1,30}$/), { maxLength: 40 }).map((list) => list.join(' '))

describe('table', () => {
  it('stands numbers right and words left under their titles', () => {
    const text = table(
      [
        { title: 'layer', kind: 'word' },
        { title: 'width', kind: 'number' },
      ],
      [
        ['L1', '0.1'],
        ['L10', '12.5'],
      ],
    )
    expect(text).toBe('  layer  width\n  L1       0.1\n  L10     12.5\n')
  })

  it('never grows wider than the page while words can wrap, and loses none of them', () => {
    fc.assert(
      fc.property(words, words, fc.stringMatching(/^[0-9]{1,8}$/), (first, second, number) => {
        const text = table(
          [
            { title: 'first', kind: 'word' },
            { title: 'n', kind: 'number' },
            { title: 'second', kind: 'word' },
          ],
          [[first, number, second]],
        )
        const lines = text.split('\n')
        expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(PAGE_WIDTH)
        const letters = (of: string): string => Array.from(of.replaceAll(/\s/g, '')).sort().join('')
        expect(letters(text)).toBe(letters(`first n second ${first}${number}${second}`))
      }),
      { seed: 20261125 },
    )
  })

  it('ends no line in blanks', () => {
    const text = table(
      [
        { title: 'one', kind: 'word' },
        { title: 'two', kind: 'word' },
      ],
      [
        ['a', ''],
        ['', 'b'],
      ],
    )
    expect(text.split('\n').filter((line) => line !== line.trimEnd())).toEqual([])
  })
})

/** The second of two columns, so wide, line by line. */
function wrapped(text: string, width: number): string[] {
  const before = PAGE_WIDTH - width
  // Two blanks stand between the columns.
  return pairs([['n'.repeat(before - 2), text]], 0)
    .split('\n')
    .slice(0, -1)
    .map((line) => line.slice(before))
}

describe('words in a column', () => {
  it('break between words, and inside one only where it is too long by itself', () => {
    expect(wrapped('one two three', 7)).toEqual(['one two', 'three'])
    expect(wrapped('abcdefghij k', 4)).toEqual(['abcd', 'efgh', 'ij k'])
    expect(wrapped('', 4)).toEqual([''])
  })
})

describe('paragraph and pairs', () => {
  it('hang later lines under the text', () => {
    const long = Array.from({ length: 40 }, () => 'word').join(' ')
    const [first = '', second = ''] = paragraph(`- ${long}`, 2, 2).split('\n')
    expect([first.slice(0, 8), second.slice(0, 8)]).toEqual(['  - word', '    word'])
    const [one = '', two = ''] = pairs([['name', long]]).split('\n')
    expect([one.slice(0, 12), two.slice(0, 12)]).toEqual(['  name  word', '        word'])
    expect(Math.max(one.length, two.length, first.length)).toBeLessThanOrEqual(PAGE_WIDTH)
  })
})
