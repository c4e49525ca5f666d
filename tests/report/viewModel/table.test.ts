import { describe, expect, it } from 'vitest'
import { byRanks, groupBy, table, verdict } from '../../../src/report/viewModel/table.ts'

const spec = {
  id: 'a',
  caption: 'A',
  columns: ['Name', '#Width', '>Why'],
  rows: [['x', '0.1 mm', 'because']],
}

describe('a table', () => {
  it('heads rows by their first cell, sets figures to the right and gives sentences room', () => {
    const { columns, rows } = table(spec)
    expect(columns).toEqual([
      { title: 'Name', numeric: false, wide: false },
      { title: 'Width', numeric: true, wide: false },
      { title: 'Why', numeric: false, wide: true },
    ])
    expect(rows[0]?.cells.map(({ heading, numeric }) => [heading, numeric])).toEqual([
      [true, false],
      [false, true],
      [false, false],
    ])
  })

  it('keeps figure and unit on one line', () => {
    expect(table(spec).rows[0]?.cells[1]?.text).toBe('0.1\u00a0mm')
  })

  it('is too broad for a phone with a column of sentences, or with more than three columns', () => {
    const broad = (columns: string[]): boolean => table({ ...spec, columns, rows: [] }).broad
    expect(broad(['Name', '#Width', 'Why'])).toBe(false)
    expect(broad(['Name', '>Why'])).toBe(true)
    expect(broad(['Name', '#Width', '#Gap', '#Height'])).toBe(true)
  })

  it('says the title again in every cell, and marks cells that say only that there is nothing', () => {
    const [row] = table({ ...spec, rows: [['x', '–', { text: '–', note: 'not stated' }]] }).rows
    expect(row?.cells.map(({ title, classes }) => [title, classes])).toEqual([
      ['Name', ''],
      ['Width', 'number absent'],
      ['Why', 'wide'],
    ])
  })

  it('refuses rows that do not fit its columns', () => {
    expect(() => table({ ...spec, rows: [['x']] })).toThrow('row 1 of "A" has 1 cells for 3 columns')
  })

  it('knows when it has no rows, and what to say then', () => {
    expect(table({ ...spec, rows: [], whenEmpty: 'None.' })).toMatchObject({
      hasRows: false,
      whenEmpty: 'None.',
    })
  })

  it('gives every cell all its parts, so that a view never asks for a missing one', () => {
    const { rows } = table({
      ...spec,
      columns: ['Name', '#Width'],
      rows: [
        [
          { text: 'x', note: 'n', mark: 'm' },
          { text: '', verdict: verdict('fail', 'no') },
        ],
      ],
    })
    expect(rows[0]?.cells).toEqual([
      {
        text: 'x',
        title: 'Name',
        numeric: false,
        classes: '',
        heading: true,
        notes: ['n'],
        href: null,
        mark: 'm',
        verdict: null,
      },
      {
        text: '',
        title: 'Width',
        numeric: true,
        classes: 'number',
        heading: false,
        notes: [],
        href: null,
        mark: null,
        verdict: { tone: 'fail', sign: '✗', text: 'no' },
      },
    ])
  })
})

describe('verdicts', () => {
  it('differ by sign as well as by word, for those who see no colour', () => {
    const signs = (['pass', 'watch', 'fail', 'note'] as const).map((tone) => verdict(tone, '').sign)
    expect(new Set(signs).size).toBe(4)
  })
})

describe('grouping', () => {
  it('keeps the order of first appearance', () => {
    expect(groupBy([3, 1, 4, 1, 5, 9, 2, 6], (value) => String(value % 2))).toEqual([
      [3, 1, 1, 5, 9],
      [4, 2, 6],
    ])
  })
})

describe('an order by ranks', () => {
  it('asks the second rank only where the first is the same', () => {
    const sorted = ['b2', 'a3', 'b1', 'a2'].sort(
      byRanks((name) => [name.charCodeAt(0), Number(name.slice(1))]),
    )
    expect(sorted).toEqual(['a2', 'a3', 'b1', 'b2'])
  })
})
