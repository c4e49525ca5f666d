import { describe, expect, it } from 'vitest'
import { inOrder, withoutEchoes } from '../../src/board/gatherIssues.ts'
import type { Issue } from '../../src/board/issue.ts'
import { exampleText, readText } from './exampleBoard.ts'

const issue = (change: Partial<Issue>): Issue => ({
  severity: 'error',
  file: 'board.yaml',
  path: '',
  line: 1,
  column: 1,
  found: 'x',
  allowed: 'y',
  message: 'z',
  ...change,
})

describe('the list of issues', () => {
  it('has errors first, then follows file, line and column', () => {
    const sorted = inOrder([
      issue({ line: 9, severity: 'warning' }),
      issue({ line: 5, column: 7 }),
      issue({ file: 'u1.csv', line: 2 }),
      issue({ line: 5, column: 3 }),
      issue({ line: 20 }),
    ])
    expect(
      sorted.map(({ severity, file, line, column }) => [severity, file, line, column].join(' ')),
    ).toEqual([
      'error board.yaml 5 3',
      'error board.yaml 5 7',
      'error board.yaml 20 1',
      'error u1.csv 2 1',
      'warning board.yaml 9 1',
    ])
  })

  it('leaves out what later stages say of a place that the schema refused, and nothing else', () => {
    const schema = [issue({ path: 'vias[1].pad' })]
    const later = [
      'vias[1].pad',
      'vias[1].pad.L3',
      'vias[1].pads',
      'vias[10].pad',
      'vias[1]',
      'nets[0].class',
    ].map((path) => issue({ path }))
    const other = issue({ path: 'vias[1].pad', file: 'u1.csv' })
    expect(withoutEchoes(schema, [...later, other]).map(({ path }) => path)).toEqual([
      ...['vias[1].pad', 'vias[1].pads', 'vias[10].pad', 'vias[1]', 'nets[0].class', 'vias[1].pad'],
    ])
  })

  it('stays short, and comes soon, for a ball map of a hundred thousand bad rows', async () => {
    const text = exampleText([['    nets:\n      A1: DQ0', '    ball_map: u1.csv\n    nets:\n      A1: DQ0']])
    const rows = Array.from({ length: 100_000 }, (_, index) => `I${index},X`).join('\n')
    const { board, issues } = await readText(text, { 'u1.csv': `ball,net\n${rows}\n` })
    expect(board).toBeNull()
    expect(issues).toHaveLength(501)
    expect(issues.at(-1)?.message).toBe('There are 99500 more problems.')
  }, 30_000)
})
