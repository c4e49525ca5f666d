import { describe, expect, it } from 'vitest'
import { channelsOf, widestWithSameCount } from '../../src/findings/channels.ts'
import { exampleBoard } from '../board/exampleBoard.ts'
import { um, withClass } from '../signal/fixtures.ts'
import { contextOf, withVia } from './fixtures.ts'

const base = withClass(await exampleBoard(), 'data', { neck: { width: um(80), gap: um(80) } })
const data = base.classes.find(({ name }) => name === 'data')
if (data === undefined) throw new Error('no class')

describe('the channels of a package', () => {
  it('are straight, and with the pads that its vias have', () => {
    const states = (pads: 'kept' | 'removed'): string[] => {
      const channels = channelsOf(contextOf(withVia(base, { unconnectedInnerPads: pads })))
      expect(channels.some(({ fit }) => fit.direction === 'diagonal')).toBe(false)
      return [...new Set(channels.filter(({ fit }) => fit.layer === 3).map(({ fit }) => fit.obstacle))]
    }
    expect(states('kept')).toEqual(['via pad'])
    expect(states('removed')).toEqual(['hole without pad'])
  })
})

describe('the widest trace that lets as many pass', () => {
  it('has its share of what is left over', () => {
    // Holes of 0.2 mm at 0.8 mm, 152.4 um from copper: 295.2 um clear take two of 80 um with 80 um between.
    const widest = widestWithSameCount(contextOf(base), data, 'U1', 3)
    expect(widest).toBeCloseTo(um((800 - 200 - 2 * 152.4 - 80) / 2), 12)
  })

  it('is not known where the package has no such channel', () => {
    expect(widestWithSameCount(contextOf(base), data, 'U9', 3)).toBeNull()
    expect(widestWithSameCount(contextOf(base), data, null, 3)).toBeNull()
  })
})
