import { describe, expect, it } from 'vitest'
import { coordinate, element, escapeText } from '../../src/charts/svg.ts'

describe('text in a drawing', () => {
  it('cannot open a tag, close an attribute or start an entity', () => {
    expect(escapeText(`<b a="1" c='2'>&amp;`)).toBe('&lt;b a=&quot;1&quot; c=&#39;2&#39;&gt;&amp;amp;')
  })

  it('is escaped inside attributes as well', () => {
    expect(element('text', { 'aria-label': '"><script>' })).toBe(
      '<text aria-label="&quot;&gt;&lt;script&gt;"/>',
    )
  })
})

describe('a coordinate', () => {
  it.each([
    [1 / 3, '0.33'],
    [12, '12'],
    [-0.001, '0'],
    [0.005, '0.01'],
    [-17.456, '-17.46'],
  ])('of %d is written %s', (value, text) => {
    expect(coordinate(value)).toBe(text)
  })

  it.each([NaN, Infinity, -Infinity])('of %d is refused', (value) => {
    expect(() => coordinate(value)).toThrow(RangeError)
  })
})

describe('an element', () => {
  it('closes itself without children and wraps them otherwise', () => {
    expect(element('g', { x: 1.234 })).toBe('<g x="1.23"/>')
    expect(element('g', {}, '<a/>', '<b/>')).toBe('<g><a/><b/></g>')
  })

  it('takes no style attribute, which the pages forbid', () => {
    expect(() => element('rect', { style: 'fill:red' })).toThrow('presentation attributes')
  })
})
