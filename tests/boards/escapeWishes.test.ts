import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { NO_WISHES } from '../../src/board/escapeWishes.ts'
import { readBoard } from '../../src/board/readBoard.ts'
import { boardOf, descriptionText, DESCRIPTIONS, REFERENCE } from './referenceBoards.ts'

describe.each(DESCRIPTIONS)('%s', (path) => {
  it('wishes nothing for its escape, and nothing is assumed of that', async () => {
    const board = await boardOf(path)
    expect(board.packages.map(({ escape }) => escape)).toEqual(board.packages.map(() => NO_WISHES))
    expect(board.assumptions.filter((assumption) => assumption.path.includes('escape'))).toEqual([])
  })
})

describe('the wishes that the README shows', () => {
  const readme = readFileSync(join(REFERENCE, '../README.md'), 'utf8')
  const [shown = ''] = /^escape:\n(?: {2}.*\n)+/m.exec(readme) ?? []

  it('read on the demonstration board, where they name layers, nets and groups that it has', async () => {
    const text = descriptionText('demo/hydrophone-recorder.yaml')
    const { board, issues } = await readBoard({
      file: 'hydrophone-recorder.yaml',
      // Once: for the first package.
      text: text.replace(/ {4}via_placement: .*\n/, (line) => line + shown.replaceAll(/^(?=.)/gm, '    ')),
      companion: (name) => readFileSync(join(REFERENCE, 'demo', name)),
    })
    expect(issues).toEqual([])
    const { escape = NO_WISHES } = board?.packages[0] ?? {}
    expect(escape).toMatchObject({
      layerOrder: [1, 8, 3, 10],
      priorityLayers: 'deep',
      keepOuts: [{ name: 'C12', layers: [8], low: { x: -1e-3, y: 0 }, high: { x: 1e-3, y: 0.5e-3 } }],
      apart: [{ groups: ['byte 0', 'byte 1'], gap: 0.3e-3 }],
    })
    const inGroup = board?.nets.filter(({ matchGroup }) => matchGroup === 'byte 0').map(({ name }) => name)
    expect([...escape.exitSides.keys()]).toEqual(inGroup)
    expect(escape.priority[1]).toEqual(['RAM_CK_P', 'RAM_CK_N'])
    expect(escape.priority[0]?.every((name) => name.startsWith('RAM0_'))).toBe(true)
  })
})
