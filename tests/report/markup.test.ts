import { describe, expect, it } from 'vitest'
import { danglingReferences, duplicateIds, firstUnbalanced, tagsOf, textOf } from './markup.ts'

describe('the scanner of markup', () => {
  it('finds what is not closed, and what closes nothing', () => {
    expect(firstUnbalanced('<p><b>a</b></p>')).toBeNull()
    expect(firstUnbalanced('<p><b>a</p></b>')).toBe('</p>')
    expect(firstUnbalanced('<p><br>a')).toBe('p')
    expect(firstUnbalanced('<p>1 < 2</p>')).toBe('< 2</p>')
  })

  it('finds ids that occur twice and references that lead nowhere', () => {
    expect(duplicateIds('<a id="x"/><b id="x"/><b id="y"/>')).toEqual(['x'])
    expect(danglingReferences('<a href="#y" aria-labelledby="x z"/><b id="x" fill="url(#p)"/>')).toEqual([
      'x z'.split(' ')[1],
      'y',
      'p',
    ])
  })

  it('reads attributes and text', () => {
    expect(tagsOf('<rect x="1" hidden/>')[0]?.attributes.get('x')).toBe('1')
    expect(textOf('<p>a&lt;b <i>c</i></p>')).toBe(' a<b c ')
  })
})
