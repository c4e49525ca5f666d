import { describe, expect, it } from 'vitest'
import { parseYaml } from '../../../src/board/document/parseYaml.ts'
import { plainValue } from '../../../src/board/document/plainValue.ts'

/** Line and finding of each problem. */
function problems(text: string, json = false): string[] {
  const { document, lines, problems: found } = parseYaml(text, json)
  const later = document === null ? [] : plainValue(document).problems
  return [...found, ...later].map((problem) => `${lines.linePos(problem.offset).line}: ${problem.found}`)
}

function value(text: string, json = false): unknown {
  const { document, problems: found } = parseYaml(text, json)
  return document === null ? found : plainValue(document).value
}

describe('parsing', () => {
  it('reads groups, lists, texts, numbers and truth', () => {
    expect(value('a: {b: [1, "2", x], c: true, d: null}\ne: 0.1 mm\nf: NO\n')).toEqual({
      a: { b: [1, '2', 'x'], c: true, d: null },
      e: '0.1 mm',
      f: 'NO',
    })
  })

  it('reads JSON, indented by tabs too, at the same places', () => {
    const text = '{\n\t"a": {\n\t\t"b": 1\n\t}\n}\n'
    expect(value(text, true)).toEqual({ a: { b: 1 } })
  })

  it.each([
    ['a tab as indentation', 'a:\n\tb: 1\n', '2: a tab at the start of a line'],
    ['a second colon', 'title: Foo: bar\n', '1: a second "key: value"'],
    ['an open bracket', 'a: [1, 2\nb: 3\n', '2: a line that is not indented'],
    ['an open quote', 'a: 1\nb: "x\n', '3: something left open'],
    ['a pattern without quotes', 'match: *DQ\n', '1: the alias *DQ, which names nothing'],
    ['an unknown tag', 'a: !foo 1\n', '1: a tag'],
    ['a tag that would run code', 'a: !!js/function "x"\n', '1: a tag'],
    ['a second document', 'a: 1\n---\nb: 2\n', '2: a second document'],
    ['a list as a key', '? [a]\n: 1\n', '1: a list or group as a key'],
  ])('names %s with its line', (_, text, found) => {
    const all = problems(text)
    expect(all).toHaveLength(1)
    expect(all[0]).toContain(found)
  })

  it('names each key that comes twice, at its second place', () => {
    expect(problems('a: 1\nb: {c: 1, c: 2}\na: 2\n')).toEqual([
      '2: the key b.c for the second time',
      '3: the key a for the second time',
    ])
  })

  it('finds a doubled key among ten thousand in linear time', () => {
    const keys = Array.from({ length: 10_000 }, (_, index) => `k${index}: 1`)
    expect(problems([...keys, 'k5000: 2'].join('\n'))).toEqual(['10001: the key k5000 for the second time'])
  })

  it('allows the nesting that it says it allows, and no more', () => {
    const nested = (depth: number): string => `${'['.repeat(depth)}${']'.repeat(depth)}`
    expect(problems(nested(24))).toEqual([])
    expect(problems(nested(26))).toHaveLength(1)
  })

  it.each([
    ['brackets', '['.repeat(100_000)],
    ['closed brackets', '['.repeat(20_000) + ']'.repeat(20_000)],
    ['dashes', '- '.repeat(20_000)],
    ['groups', '{a: '.repeat(20_000)],
    ['indentation', Array.from({ length: 500 }, (_, depth) => `${' '.repeat(depth)}a:`).join('\n')],
  ])('survives thousands of nested %s', (_, text) => {
    const [first = ''] = problems(text)
    expect(first).toContain('nested more than 24 deep')
  })

  it('stops after as many words as any description needs, however the text goes on', () => {
    const [first = '', ...more] = problems(`a: [${'1,'.repeat(1_000_000)}1]`)
    expect(first).toContain('more than 600000 words')
    expect(more).toEqual([])
  })

  it('stops an alias bomb', () => {
    const level = (name: string, of: string): string =>
      `${name}: &${name} [${Array(9).fill(`*${of}`).join(', ')}]\n`
    const bomb = `a: &a [x, x, x]\n${level('b', 'a')}${level('c', 'b')}${level('d', 'c')}${level('e', 'd')}`
    const [first = ''] = problems(bomb)
    expect(first).toContain('more than 200 aliases')
  })

  it('stops an anchor that holds itself', () => {
    expect(problems('a: &a [*a]\n')).toHaveLength(1)
  })

  it('writes honest aliases out', () => {
    expect(value('a: &layer {t: 1 mm}\nb: *layer\n')).toEqual({ a: { t: '1 mm' }, b: { t: '1 mm' } })
  })

  it('keeps a key called __proto__ a plain key', () => {
    const read = value('__proto__: {polluted: 1}\n') as object
    expect(Object.keys(read)).toEqual(['__proto__'])
    expect('polluted' in read).toBe(false)
  })
})
