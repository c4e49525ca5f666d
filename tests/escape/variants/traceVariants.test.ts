import { describe, expect, it } from 'vitest'
import type { Board } from '../../../src/board/board.ts'
import type { Metres } from '../../../src/units/quantity.ts'
import { fitChannel } from '../../../src/escape/channelFit.ts'
import { channelFits } from '../../../src/escape/channelFits.ts'
import {
  finestVariant,
  oneTraceVariant,
  twoTracesVariant,
} from '../../../src/escape/variants/traceVariants.ts'
import { fabrication, netClass, packageOf, padsOf, square, um, via } from '../fixtures.ts'
import { described, laminated } from './fixtures.ts'

const pack = packageOf(square(6))
const uncapped = (): null => null

function widthIn(board: Board): Metres {
  const width = board.classes.find(({ name }) => name === 'single')?.neck.width ?? null
  if (width === null) throw new Error('the class has no width')
  return width
}

/** Fewest traces of a width that pass between straight neighbours of any layer. */
function fewest(board: Board, width: Metres): number {
  const fits = channelFits(board, described(board).pack, 'through').filter(
    ({ direction, innerPads, netClass: name }) =>
      direction !== 'diagonal' && innerPads === 'kept' && name === 'single',
  )
  expect(fits.length).toBeGreaterThan(0)
  return Math.min(
    ...fits.map(
      ({ span, tests, traceGap }) =>
        fitChannel({ span, rules: tests, width, traceGap, tolerance: um(0.5) }).traces,
    ),
  )
}

describe('the finest traces', () => {
  it('are as narrow as the fabricator makes on inner and outer layers', () => {
    const board = laminated(pack, {
      fabrication: fabrication({ traceWidth: { outer: um(80), inner: um(60) } }),
    })
    const variant = finestVariant(described(board))
    expect(widthIn(variant.board)).toBe(um(80))
    expect(variant.change).toBe('neck of single 0.080 mm instead of 0.100 mm')
  })

  it('leave classes alone that no ball of the package belongs to', () => {
    const board = laminated(pack)
    const names = (each: Board): unknown => each.classes.find(({ name }) => name === 'pair')
    expect(names(finestVariant(described(board)).board)).toBe(names(board))
  })

  it('are the description where no neck is wider', () => {
    const board = laminated(pack, { classes: [netClass('single', { neck: { width: um(75), gap: null } })] })
    expect(finestVariant(described(board)).state).toBe('as described')
  })
})

describe('one trace per channel', () => {
  it('is the widest of which one passes everywhere, by the arithmetic of the channel', () => {
    const board = laminated(pack)
    const width = widthIn(oneTraceVariant(described(board), uncapped).board)
    expect(width).toBeGreaterThan(um(100))
    expect([fewest(board, width), fewest(board, width + um(1))]).toEqual([1, 0])
  })

  it('is no wider than the main route', () => {
    const variant = oneTraceVariant(described(laminated(pack)), () => um(120))
    expect(widthIn(variant.board)).toBe(um(120))
  })

  it('is refused with the clear space where none passes', () => {
    const board = laminated(packageOf(square(6), { landDiameter: um(600) }), {
      vias: [via('through', { lastLayer: 10, padDiameters: padsOf(10, 620) })],
    })
    const variant = oneTraceVariant(described(board), uncapped)
    expect(variant.state).toBe('cannot be built')
    expect(variant.change).toMatch(/leaves no clear space|below the 0.075 mm that the fabricator makes/)
  })
})

describe('two traces per channel', () => {
  const open = { ...pack, landDiameter: um(350), maskOpening: um(400) }
  const small = { vias: [via('through', { lastLayer: 10, padDiameters: padsOf(10, 350) })] }
  const fine = fabrication({
    traceWidth: { outer: um(60), inner: um(60) },
    traceGap: { outer: um(60), inner: um(60) },
    traceToPad: { outer: um(75), inner: um(75) },
    drillToCopper: um(150),
  })

  it('are as wide as two side by side can be, by the arithmetic of the channel', () => {
    const board = laminated(open, { ...small, fabrication: fine })
    const width = widthIn(twoTracesVariant(described(board), uncapped).board)
    expect([fewest(board, width), fewest(board, width + um(1))]).toEqual([2, 1])
  })

  it('are never below what the fabricator makes: refused with width, gap and clear space', () => {
    const variant = twoTracesVariant(described(laminated(pack)), uncapped)
    expect(variant.state).toBe('cannot be built')
    // 800 − 400 − 2 · 100 = 200 um clear between lands; (200 − 100) / 2 = 50 um.
    expect(variant.change).toContain(
      'on L1, is 0.200 mm clear: two traces 0.100 mm apart could be 0.050 mm wide',
    )
    expect(variant.change).toContain('below the 0.075 mm')
  })
})
