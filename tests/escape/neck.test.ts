import { describe, expect, it } from 'vitest'
import { neckOf } from '../../src/escape/neck.ts'
import { boardOf, fabrication, netClass, packageOf, um } from './fixtures.ts'

const board = boardOf(packageOf(['s']), {
  fabrication: fabrication({
    traceWidth: { outer: um(90), inner: um(75) },
    traceGap: { outer: um(100), inner: um(80) },
  }),
})
const free = { width: null, gap: null }

describe('neckOf', () => {
  it('takes the width of the class where it gives one, whatever the channel', () => {
    const given = netClass('given', { neck: { width: um(60), gap: null } })
    expect(neckOf(board, given, 1, um(20)).width).toBe(um(60))
    expect(neckOf(board, given, 3, um(500)).width).toBe(um(60))
  })

  it('takes all of the channel otherwise, but not more than a stated main route', () => {
    expect(neckOf(board, netClass('free', { neck: free }), 3, um(130)).width).toBeCloseTo(um(130), 12)
    const main = { width: um(110), gap: null, length: null, coplanarGap: null }
    expect(neckOf(board, netClass('limited', { neck: free, main }), 3, um(130)).width).toBeCloseTo(
      um(110),
      12,
    )
  })

  it('is never finer than the fabricator makes, even where nothing fits', () => {
    const narrow = netClass('free', { neck: free })
    expect(neckOf(board, narrow, 1, um(50)).width).toBe(um(90))
    expect(neckOf(board, narrow, 3, um(-200)).width).toBe(um(75))
  })

  it('shares the channel between the two of a pair that fits with its gap, and parts it where it does not', () => {
    const pair = netClass('pair', { structure: 'pair', neck: { width: null, gap: um(100) } })
    expect(neckOf(board, pair, 3, um(300)).coupled).toEqual({ width: um(100), gap: um(100) })
    const parted = neckOf(board, pair, 3, um(240))
    expect(parted.coupled).toBeNull()
    expect(parted.width).toBeCloseTo(um(240), 12)
  })

  it('couples a pair of stated width to the last half micrometre, and never a single trace', () => {
    const pair = netClass('pair', { structure: 'pair', neck: { width: um(80), gap: um(90) } })
    expect(neckOf(board, pair, 3, um(249.6)).coupled).toEqual({ width: um(80), gap: um(90) })
    expect(neckOf(board, pair, 3, um(249.4)).coupled).toBeNull()
    expect(neckOf(board, netClass('single'), 3, um(900)).coupled).toBeNull()
  })

  it('keeps the fabricator’s gap to other traces where the class gives none', () => {
    expect(neckOf(board, netClass('single'), 1, um(300)).traceGap).toBe(um(100))
    expect(neckOf(board, netClass('single'), 3, um(300)).traceGap).toBe(um(80))
  })
})
