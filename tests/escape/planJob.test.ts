import { describe, expect, it } from 'vitest'
import { NO_WISHES } from '../../src/board/escapeWishes.ts'
import { planJob } from '../../src/escape/planJob.ts'
import { boardOf, netOf, packageOf, um } from './fixtures.ts'

/** Gaps from the first net of some to each other one, by their groups and the wishes for these. */
function gapsOf(groups: readonly string[], wishes: readonly (readonly [string, string, number])[]): number[] {
  const apart = wishes.map(([one, other, gap]) => ({ groups: [one, other] as const, gap: um(gap) }))
  const pack = packageOf(['s'.repeat(groups.length)], { escape: { ...NO_WISHES, apart } })
  const nets = groups.map((matchGroup, index) => netOf(`0,${index}`, 'single', { matchGroup }))
  const job = planJob(boardOf(pack, { nets }), pack, 'through')
  return groups.slice(1).map((_, index) => Math.round(job.apart(0, index + 1) / um(1)))
}

describe('the gap between two match groups', () => {
  it('is kept either way round, and not within a group or from others', () => {
    const wishes = [['clock', 'data', 500]] as const
    expect(gapsOf(['clock', 'data', 'clock', 'address'], wishes)).toEqual([500, 0, 0])
    expect(gapsOf(['data', 'clock'], wishes)).toEqual([500])
    expect(gapsOf(['clock', 'clock'], [['clock', 'clock', 300]])).toEqual([300])
  })

  it.each(['|', ',', '","', ' ', '\\'])(
    'is not kept between groups whose names only read alike, joined by %s',
    (sign) => {
      const [ab, bc] = [`a${sign}b`, `b${sign}c`]
      const wishes = [
        [ab, 'c', 500],
        ['a', 'other', 100],
        [bc, 'other', 200],
      ] as const
      expect(gapsOf(['a', bc, 'other', 'c'], wishes)).toEqual([0, 100, 0])
      expect(gapsOf(['c', ab, bc], wishes)).toEqual([500, 0])
    },
  )
})
