import { describe, expect, it } from 'vitest'
import { readExpression } from '../../src/units/expression.ts'

function pieces(plain: string): string {
  const read = readExpression(plain, 'copper thickness')
  return read.ok ? read.tokens.map(({ kind, text }) => `${kind} ${text}`).join(', ') : read.found
}

describe('readExpression', () => {
  it('reads the longest unit, so that ps/mm is one unit and mm is not m twice', () => {
    expect(pieces('7 ps/mm')).toBe('number 7, unit ps/mm')
    expect(pieces('7 ps / mm*2 mm')).toBe('number 7, unit ps / mm, operator *, number 2, unit mm')
    expect(pieces('7 ps/(2 mm)')).toBe(
      'number 7, unit ps, operator /, parenthesis (, number 2, unit mm, parenthesis )',
    )
    expect(pieces('1 oz/ft^2 + 1"')).toBe('number 1, unit oz/ft^2, operator +, number 1, unit "')
  })

  it('names the first piece that it does not know', () => {
    expect(pieces('1 mm + 2 mmx')).toBe('"1 mm + 2 mmx", in which "mmx" is no known unit')
    expect(pieces('1 mm; 2')).toBe('"1 mm; 2", in which ";" has no place')
  })

  it('refuses what a parser would multiply in silence', () => {
    expect(pieces('5 mm 2')).toBe('"5 mm 2", with no + - * / between "mm" and "2"')
    expect(pieces('2 (3 mm)')).toBe('"2 (3 mm)", with no + - * / between "2" and "("')
    expect(pieces('(1 + 2) mm')).toBe('parenthesis (, number 1, operator +, number 2, parenthesis ), unit mm')
    expect(pieces('3 / mm')).toBe('"3 / mm", with no number before "mm"')
  })
})
