import { describe, expect, it } from 'vitest'
import { channelsText } from '../../../src/cli/text/channelsText.ts'
import { board, processor } from '../../report/fixtures/board.ts'
import { escapes } from '../../report/fixtures/escapes.ts'

const channels = escapes.find((escape) => escape.package === processor.name)?.channels ?? []
const textFor = (layerOrder: readonly number[]): string =>
  channelsText(board, { ...processor, escape: { ...processor.escape, layerOrder } }, channels)

describe('the channels of a package', () => {
  it('name the layers that the description leaves out, and print none of their rows', () => {
    const all = textFor([])
    expect(all).toMatch(/^ +L3/m)
    expect(all).not.toContain('left out')
    const first = textFor([1])
    expect(first).toMatch(/^ +L1 /m)
    expect(first).not.toMatch(/^ +L3/m)
    expect(first.replace(/\s+/g, ' ')).toMatch(
      /left out, because the description lets no net leave there: .*L3/,
    )
  })
})
