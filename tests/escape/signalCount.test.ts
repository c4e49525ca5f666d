import { describe, expect, it } from 'vitest'
import { signalCount } from '../../src/escape/signalCount.ts'
import { packageOf, square } from './fixtures.ts'

describe('signalCount', () => {
  it('counts the signals of the map and the ring of the deepest', () => {
    const pack = packageOf(['sgs.s', 'gssgg', 'ggggg', 'gsggg', 'ggggg'])
    expect(signalCount(pack)).toEqual({ count: 6, assumed: false, deepestRing: 2 })
  })

  it('takes the stated share of all balls where the map does not tell, in every ring with a ball', () => {
    const pack = packageOf(
      square(14, () => 'u'),
      { signalsAssumed: true, signalShare: 0.6 },
    )
    // UG1099: about 60 % of 196 balls, 117.6.
    expect(signalCount(pack)).toEqual({ count: 118, assumed: true, deepestRing: 7 })
  })

  it('finds nothing where there is nothing', () => {
    expect(signalCount(packageOf(['...', '...']))).toEqual({ count: 0, assumed: false, deepestRing: 0 })
  })
})
