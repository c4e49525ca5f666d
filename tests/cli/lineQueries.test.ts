import { describe, expect, it } from 'vitest'
import { readQueries } from '../../src/cli/lineQueries.ts'
import type { Shell } from '../../src/cli/shell.ts'

const nothing = (): void => undefined

async function read(input: string) {
  const shell: Shell = {
    print: nothing,
    write: nothing,
    complain: nothing,
    input: () => Promise.resolve(input),
  }
  const problems: string[] = []
  const queries = await readQueries('-', shell, problems)
  return { queries, problems }
}

describe('readQueries', () => {
  it('reads one query a line, with its id, in any number of lines', async () => {
    const { queries, problems } = await read(
      '{"id": "a", "layer": "L3", "width": "80 um"}\r\n\n{"layer": 5, "width": "0.2 mm / 2", "gap": "90 um", "withLayer": null}\n',
    )
    expect(problems).toEqual([])
    expect(queries).toEqual([
      {
        id: 'a',
        place: 'standard input:1',
        question: { layer: 'L3', width: 80e-6, gap: null, coplanarGap: null, withLayer: null },
      },
      {
        id: null,
        place: 'standard input:3',
        question: { layer: '5', width: 1e-4, gap: 90e-6, coplanarGap: null, withLayer: null },
      },
    ])
  })

  it('lists every problem of every line', async () => {
    const { queries, problems } = await read(
      [
        '{"layer": "L3", "width": 80}',
        'not json',
        '[1]',
        '{"layer": "", "width": "80 um", "hight": 1}',
        '{"layer": "L3", "width": "80 um", "gap": "1 mm", "withLayer": "L4"}',
        '{"layer": "L3", "width": "-80 um"}',
        '{"id": {}, "layer": "L3", "width": "80 um"}',
      ].join('\n'),
    )
    expect(queries).toEqual([])
    expect(problems.map((problem) => problem.replace('standard input:', '').split('; allowed')[0])).toEqual([
      '1: width: found 80 without a unit',
      '2: found not json',
      '3: found [1]',
      '4: found the key "hight"',
      '4: layer: found ""',
      '5: withLayer: found a gap beside it',
      '6: width: found -80 um',
      '7: id: found {}',
    ])
  })

  it('wants at least one query', async () => {
    expect((await read('\n\n')).problems).toEqual(['-: found no query; allowed: a JSON object a line'])
  })
})
