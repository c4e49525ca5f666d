import { describe, expect, it } from 'vitest'
import { ballOf, classOf, landLayerOf, netOf, packageOf, viaOf } from '../../src/board/lookup.ts'
import { exampleBoard } from './exampleBoard.ts'

describe('lookup', () => {
  it('finds parts by name', async () => {
    const board = await exampleBoard()
    expect(viaOf(board, 'through via').name).toBe('through via')
    expect(packageOf(board, 'U1').name).toBe('U1')
    expect(classOf(board, netOf(board, 'DQ0')).name).toBe('data')
    expect(ballOf(packageOf(board, 'U1'), 'C3').net).toBe('VDD')
  })

  it('refuses names that do not exist', async () => {
    const board = await exampleBoard()
    expect(() => viaOf(board, 'x')).toThrow('there is no via x')
    expect(() => packageOf(board, 'x')).toThrow(RangeError)
    expect(() => netOf(board, 'x')).toThrow(RangeError)
    expect(() => ballOf(packageOf(board, 'U1'), 'D4')).toThrow('there is no ball of U1 called D4')
  })

  it('has the lands on the outer layer of the side of the package', async () => {
    const board = await exampleBoard()
    const pack = packageOf(board, 'U1')
    expect(landLayerOf(board, pack)).toBe(1)
    expect(landLayerOf(board, { ...pack, placement: { ...pack.placement, side: 'bottom' } })).toBe(8)
  })
})
