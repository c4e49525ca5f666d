import { describe, expect, it } from 'vitest'
import { mainsText } from '../../../src/cli/text/mainsText.ts'
import type { PackageEscape, WithoutMain } from '../../../src/escape/escape.ts'
import { escapesOf } from '../../../src/escapes.ts'
import { exampleBoard } from '../../board/exampleBoard.ts'

const board = await exampleBoard()
const [escape] = escapesOf(board)
if (escape === undefined || escape.mains.length === 0) throw new Error('the example has main routes')

function without(count: number, draft: Partial<WithoutMain> = {}): WithoutMain[] {
  return Array.from({ length: count }, (_, index) => ({
    ball: `B${index}`,
    net: `NET${index}`,
    layer: 3,
    reason: 'no width',
    fault: null,
    ...draft,
  }))
}

const textOf = (draft: Partial<PackageEscape>): string => mainsText(board, { ...escape, ...draft })

describe('the main routes of an escape for people', () => {
  it('are one line where every net has one, and none where none leaves', () => {
    expect(textOf({ mains: escape.mains.slice(0, 1), withoutMain: [] })).toContain(
      'every net that is out has',
    )
    expect(textOf({ mains: [], withoutMain: [] })).toBe('')
  })

  it('that are missing stand with their nets, layer and reason, alike ones together', () => {
    const text = textOf({
      mains: [],
      withoutMain: [...without(2), ...without(1, { net: 'OTHER', layer: 1 })],
    })
    expect(text).toContain('3 of 3 out without the start of a main route')
    expect(text).toContain('NET0, NET1')
    expect(text).toMatch(/why: on .*, no width that can be etched meets its target/)
    expect(text.match(/why:/g)).toHaveLength(2)
  })

  it('are named by the dozen', () => {
    expect(textOf({ mains: [], withoutMain: without(14) })).toContain('and 2 more')
  })
})
