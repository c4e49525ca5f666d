import { describe, expect, it } from 'vitest'
import type { Board } from '../../src/board/board.ts'
import type { Route } from '../../src/routes/route.ts'
import type { Skew } from '../../src/signal/netSignal.ts'
import { netSignals } from '../../src/signal/netSignals.ts'
import { skews } from '../../src/signal/skews.ts'
import type { ViaTable } from '../../src/impedance/viaLine.ts'
import { exampleBoard } from '../board/exampleBoard.ts'
import { NO_VIAS, modelTable, ps, route, withClass, withNet } from './fixtures.ts'
import { modelVias } from './modelVias.ts'

const base = await exampleBoard()
const LIGHT = 299_792_458
const MIL = 25.4e-6

function skewsOf(board: Board, routes: readonly Route[], vias: ViaTable = NO_VIAS): Skew[] {
  return skews(board, netSignals(board, routes, modelTable(board, routes), vias))
}

const pair = (lengths: readonly [number, number]): Route[] => [
  route({ net: 'TX0_P', ball: 'C1', neckLength: lengths[0] }),
  route({ net: 'TX0_N', ball: 'D1', neckLength: lengths[1] }),
]

describe('the skew of a pair', () => {
  it('is the difference of the two arrivals', () => {
    const [skew] = skewsOf(base, pair([4e-3, 3e-3]))
    expect(skew?.kind).toBe('pair')
    expect(skew?.name).toBe('TX0_P and TX0_N')
    expect(skew?.earliest.net).toBe('TX0_N')
    expect(skew?.latest.net).toBe('TX0_P')
    expect(skew?.skew).toBeCloseTo((1e-3 * Math.sqrt(3.7)) / LIGHT, 18)
  })

  // AMD UG583 v1.27 table 2-2: 5 ps equal 29 mil; half a mil is 0.09 ps.
  it('of 29 mil in the dielectric that this table implies is 5 ps', () => {
    const permittivity = 4.14
    const stackup = {
      ...base.stackup,
      layers: base.stackup.layers.map((layer) =>
        layer.kind === 'dielectric'
          ? { ...layer, permittivity: { ...layer.permittivity, relative: permittivity } }
          : layer,
      ),
    }
    const [skew] = skewsOf({ ...base, stackup }, pair([3e-3 + 29 * MIL, 3e-3]))
    expect(Math.abs((skew?.skew ?? NaN) - ps(5))).toBeLessThan(ps(0.09))
  })

  it('counts the delay of packages', () => {
    const board = withNet(base, 'TX0_N', { packageDelay: ps(30) })
    const [skew] = skewsOf(board, pair([3e-3, 3e-3]))
    expect(skew?.skew).toBeCloseTo(ps(30), 18)
    expect(skew?.latest.net).toBe('TX0_N')
  })

  it('counts barrels', () => {
    const [first, second] = pair([3e-3, 3e-3])
    if (first === undefined || second === undefined) throw new Error('no pair')
    const [skew] = skewsOf(base, [first, { ...second, viaDepth: second.viaDepth + 1e-3 }])
    expect(skew?.skew).toBeGreaterThan((1e-3 * Math.sqrt(3.6)) / LIGHT)
    expect(skew?.skew).toBeLessThan((1e-3 * Math.sqrt(3.7)) / LIGHT)
  })

  it('counts vias, and what hangs of them', () => {
    // On layer 6 the model goes 3 ps farther, and hangs 3 ps less, of 32 ohm, before a neck of the layer's impedance.
    const [first, second] = pair([3e-3, 3e-3])
    if (first === undefined || second === undefined) throw new Error('no pair')
    const routes = [first, { ...second, exitLayer: 6 }]
    const [onThree, onSix] = routes.map(
      (each) => netSignals(base, [each], modelTable(base, [each]), modelVias())[0]?.sections ?? [],
    )
    const neck = (sections: typeof onThree): number =>
      sections?.find(({ kind }) => kind === 'neck')?.impedance ?? NaN
    const charging = (neck(onThree) / 2) * (ps(5) / 32) - (neck(onSix) / 2) * (ps(2) / 32)
    const [skew] = skewsOf(base, routes, modelVias())
    // Layers 3 and 6 carry the same line, in cores of 3.7.
    expect(skew?.skew).toBeCloseTo(Math.abs(ps(3) - charging), 18)
    expect(skewsOf(base, pair([3e-3, 3e-3]), modelVias())[0]?.skew).toBe(0)
  })

  it('is judged by the limit of its class, the tighter where they differ', () => {
    const board = withClass(base, 'serial', { pairSkewLimit: ps(1.5) })
    expect(skewsOf(board, pair([3e-3, 3e-3]))[0]?.limit).toBe(ps(1.5))
    const none = withClass(base, 'serial', { pairSkewLimit: null })
    expect(skewsOf(none, pair([3e-3, 3e-3]))[0]?.limit).toBeNull()
  })

  it('has to be made up for until both main lengths are given', () => {
    const both = withNet(withNet(base, 'TX0_P', { mainLength: 40e-3 }), 'TX0_N', { mainLength: 42e-3 })
    const [whole] = skewsOf(both, pair([4e-3, 3e-3]))
    expect(whole?.toBeCompensated).toBe(false)
    expect(whole?.skew).toBeCloseTo((1e-3 * Math.sqrt(3.7)) / LIGHT, 16)
    expect(whole?.latest.net).toBe('TX0_N')
    const one = withNet(withNet(base, 'TX0_P', { mainLength: 40e-3 }), 'TX0_N', { mainLength: null })
    const [half] = skewsOf(one, pair([4e-3, 3e-3]))
    expect(half?.toBeCompensated).toBe(true)
    expect(half?.latest.net).toBe('TX0_P')
    expect(half?.skew).toBeCloseTo((1e-3 * Math.sqrt(3.7)) / LIGHT, 16)
  })
})

describe('the skew of a group', () => {
  const routes = ['DQ0', 'DQ1', 'DQ2'].map((net, index) =>
    route({ net, ball: `A${index + 1}`, neckLength: 3e-3 + index * 0.5e-3 }),
  )

  it('runs from its earliest to its latest net', () => {
    const [skew] = skewsOf(base, routes)
    expect(skew?.kind).toBe('group')
    expect(skew?.nets).toEqual(['DQ0', 'DQ1', 'DQ2'])
    expect([skew?.earliest.net, skew?.latest.net]).toEqual(['DQ0', 'DQ2'])
    expect(skew?.skew).toBeCloseTo((1e-3 * Math.sqrt(3.7)) / LIGHT, 18)
  })

  it('takes the tightest limit of its classes', () => {
    const board = withClass(withClass(base, 'data', { groupSkewLimit: ps(10) }), 'strobe', {
      groupSkewLimit: ps(4),
    })
    const mixed = [...routes, route({ net: 'DQS_P', ball: 'B3' })]
    expect(skewsOf(board, mixed).find(({ kind }) => kind === 'group')?.limit).toBe(ps(4))
  })

  it('needs two nets with a route', () => {
    expect(skewsOf(base, routes.slice(0, 1))).toEqual([])
  })
})
