import { describe, expect, it } from 'vitest'
import { throughVia, viaChains } from '../../src/escape/viaChain.ts'
import type { Board } from '../../src/board/board.ts'
import type { Package } from '../../src/board/packages.ts'
import type { ViaType } from '../../src/board/vias.ts'
import { boardOf, copperStack, fabrication, packageOf, via } from './fixtures.ts'

const micro = (name: string, firstLayer: number, lastLayer: number, change: Partial<ViaType> = {}): ViaType =>
  via(name, { kind: 'microvia', firstLayer, lastLayer, arrangement: 'staggered', ...change })

function names(vias: readonly ViaType[], layers = 8, change: Partial<Package> = {}): Record<number, string> {
  const pack = packageOf(['s'], change)
  const board: Board = boardOf(pack, { stackup: copperStack(layers), vias })
  const chains = viaChains(board, pack, 'blind')
  return Object.fromEntries([...chains].map(([layer, { name }]) => [layer, name]))
}

describe('viaChains', () => {
  it('joins microvias and buried vias end to end, from the land inwards', () => {
    expect(
      names([
        micro('a', 1, 2),
        micro('b', 2, 3),
        via('buried', { kind: 'buried', firstLayer: 3, lastLayer: 6 }),
      ]),
    ).toEqual({
      2: 'a',
      3: 'a + b',
      6: 'a + b + buried',
    })
  })

  it('takes the chain with fewest holes, and the package’s own via among equals', () => {
    const vias = [micro('a', 1, 2), micro('b', 2, 3), micro('skip', 1, 3), micro('own', 1, 3)]
    expect(names(vias, 8, { via: 'own' })).toMatchObject({ 3: 'own' })
  })

  it('uses the through via only for layers on which no chain ends', () => {
    expect(names([via('through', { lastLayer: 4 }), micro('a', 1, 2)], 4)).toEqual({
      2: 'a',
      3: 'through',
      4: 'through',
    })
  })

  it('stacks no more microvias than the fabricator allows, but staggers as many as are described', () => {
    const stacked = { arrangement: 'stacked' as const }
    const three = (change: Partial<ViaType>): ViaType[] => [
      micro('a', 1, 2, change),
      micro('b', 2, 3, change),
      micro('c', 3, 4, change),
    ]
    expect(names(three(stacked))).toEqual({ 2: 'a', 3: 'a + b' })
    expect(names(three({}))).toEqual({ 2: 'a', 3: 'a + b', 4: 'a + b + c' })
    const pack = packageOf(['s'])
    const board = boardOf(pack, {
      vias: three(stacked),
      fabrication: fabrication({ maxStackedMicrovias: 3 }),
    })
    expect([...viaChains(board, pack, 'blind').keys()]).toEqual([2, 3, 4])
  })

  it('starts at the bottom for a package on the bottom, and ignores holes from the other side', () => {
    const bottom = { placement: { origin: { x: 0, y: 0 }, side: 'bottom' as const, rotationDegrees: 0 } }
    expect(names([micro('top', 1, 2), micro('a', 7, 8), micro('b', 6, 7)], 8, bottom)).toEqual({
      7: 'a',
      6: 'a + b',
    })
  })

  it('knows only the hole through the whole board as through technology', () => {
    const pack = packageOf(['s'])
    const board = boardOf(pack, {
      stackup: copperStack(4),
      vias: [micro('a', 1, 2), via('through', { lastLayer: 4 })],
    })
    const chains = viaChains(board, pack, 'through')
    expect([...chains].map(([layer, { name }]) => [layer, name])).toEqual([
      [2, 'through'],
      [3, 'through'],
      [4, 'through'],
    ])
    expect(viaChains({ ...board, vias: [micro('a', 1, 2)] }, pack, 'through').size).toBe(0)
  })

  it('is not led round in circles by holes that overlap', () => {
    expect(
      names([
        micro('a', 1, 3),
        micro('b', 2, 4),
        micro('c', 3, 2),
        via('flat', { kind: 'blind', lastLayer: 1 }),
      ]),
    ).toEqual({ 3: 'a' })
  })
})

describe('throughVia', () => {
  it('is the package’s own where that goes through, else the first described', () => {
    const vias = [via('first'), via('second'), micro('small', 1, 2)]
    const pick = (own: string): string | undefined => {
      const pack = packageOf(['s'], { via: own })
      return throughVia(boardOf(pack, { vias }), pack)?.name
    }
    expect(pick('second')).toBe('second')
    expect(pick('small')).toBe('first')
  })
})
