import { describe, expect, it } from 'vitest'
import type { Board } from '../../src/board/board.ts'
import type { Ball } from '../../src/board/packages.ts'
import { returnInductance } from '../../src/impedance/returnInductance.ts'
import type { ViaLine } from '../../src/impedance/viaLine.ts'
import type { Route } from '../../src/routes/route.ts'
import { viaTravel } from '../../src/routes/viaTravel.ts'
import { NetVias } from '../../src/signal/netVias.ts'
import { exampleBoard } from '../board/exampleBoard.ts'
import { via } from '../escape/fixtures.ts'
import { route } from './fixtures.ts'

const MAGNETIC = 4e-7 * Math.PI
const PITCH = 0.8e-3
/** Drilled, of the example's via. */
const RADIUS = 0.1e-3
const base = await exampleBoard()

/** The via of a route among routes, which has to be there. */
function viaOf(board: Board, one: Route, others: readonly Route[] = []): ViaLine {
  const line = new NetVias(board, [one, ...others]).of(one)
  if (line === null) throw new Error('no via')
  return line
}

function ball(board: Board, name: string): Ball {
  const found = board.packages[0]?.balls.find((each) => each.name === name)
  if (found === undefined) throw new Error(`no ball ${name}`)
  return found
}

/** Of one round wire with one that carries its current back, thin ones: textbook, from memory. */
const oneReturn = (apart: number): number => (MAGNETIC / Math.PI) * Math.log(apart / RADIUS)

describe('the way back of a via’s current', () => {
  const serial = route({ net: 'TX0_P', ball: 'C1' })
  const negative = route({ net: 'TX0_N', ball: 'D1' })
  const among = (board: Board, signal: string, partner: string | null, returns: readonly string[]): number =>
    returnInductance(
      {
        signal: ball(board, signal),
        partner: partner === null ? null : ball(board, partner),
        returns: returns.map((name) => ball(board, name)),
      },
      RADIUS,
    )

  it('of a net that nothing stands near is the nearest supply ball of all', () => {
    // A1 has C3 two rows and two columns away, beyond two and a half pitches.
    const { inductance, assumed } = viaOf(base, route({ net: 'DQ0', ball: 'A1' }))
    expect(inductance / oneReturn(PITCH * Math.sqrt(8))).toBeCloseTo(1, 8)
    expect(assumed).toEqual([])
  })

  it('is all supply balls within two and a half pitches', async () => {
    // B2: DQ7. Around it B1, B3, C1, C2 are signals; C3, C4 supplies, D2, D3 by default, B5 three columns away.
    const { inductance } = viaOf(base, route({ net: 'DQ7', ball: 'B2' }))
    expect(inductance / among(base, 'B2', null, ['C3', 'C4', 'D2', 'D3'])).toBeCloseTo(1, 9)
    // With planes of ground alone, VDD on C3 brings nothing back.
    const grounded = await exampleBoard([['role: plane, net: VDD', 'role: plane, net: GND']])
    const without = viaOf(grounded, route({ net: 'DQ7', ball: 'B2' })).inductance
    expect(without / among(grounded, 'B2', null, ['C4', 'D2', 'D3'])).toBeCloseTo(1, 9)
  })

  it('is no more than the eight nearest', async () => {
    const inside = await exampleBoard([['C4: GND', 'C4: GND\n      G6: DQ9']])
    const { inductance } = viaOf(inside, route({ net: 'DQ9', ball: 'G6' }))
    const around = ['F5', 'F6', 'F7', 'G5', 'G7', 'H5', 'H6', 'H7']
    expect(inductance / among(inside, 'G6', null, around)).toBeCloseTo(1, 9)
  })

  it('of a pair is the other via, with the supply balls around the two', () => {
    const near = ['C3', 'D2', 'D3', 'E1', 'E2', 'E3', 'F1', 'F2']
    const { inductance } = viaOf(base, serial, [negative])
    expect(inductance / among(base, 'C1', 'D1', near)).toBeCloseTo(1, 9)
  })

  it('of a pair is the same for both, and so is all else', () => {
    const [positive, other] = [viaOf(base, serial, [negative]), viaOf(base, negative, [serial])]
    expect(other.inductance / positive.inductance).toBeCloseTo(1, 12)
    expect(other.delay / positive.delay).toBeCloseTo(1, 12)
  })

  it('of a pair whose other net has no route is that of two nets by themselves', () => {
    const alone = viaOf(base, serial)
    expect(alone.inductance / (2 * among(base, 'C1', null, ['D2', 'C3', 'E1', 'D3', 'E2']))).toBeCloseTo(1, 9)
  })

  it('is assumed two pitches away where no ball has the net of a plane, and says so', () => {
    const bare = {
      ...base,
      packages: base.packages.map((pack) => ({
        ...pack,
        balls: pack.balls.filter(({ use }) => use === 'signal'),
      })),
    }
    const { inductance, assumed } = viaOf(bare, route({ net: 'DQ0', ball: 'A1' }))
    expect(inductance / oneReturn(2 * PITCH)).toBeCloseTo(1, 8)
    expect(assumed).toHaveLength(1)
    expect(assumed[0]?.path).toBe('packages.U1.balls')
    expect(assumed[0]?.value).toMatch(/two ball pitches/)
    // A pair has its own way back.
    const pair = viaOf(bare, serial, [negative])
    expect(pair.assumed).toEqual([])
    expect(pair.inductance / oneReturn(PITCH)).toBeCloseTo(1, 8)
  })
})

describe('the via of a route', () => {
  const one = route({ net: 'DQ0', ball: 'A1' })
  const lengths = (exitLayer: number): Pick<Route, 'exitLayer' | 'viaDepth' | 'stubLength'> => {
    const [through] = base.vias
    if (through === undefined) throw new Error('no via')
    const { depth, stub } = viaTravel(base.stackup, through, 1, exitLayer)
    return { exitLayer, viaDepth: depth, stubLength: stub }
  }

  it('to another layer is that of a route which leaves there', () => {
    const vias = new NetVias(base, [one])
    for (const layer of [1, 6, 8]) {
      const there = route({ net: 'DQ0', ball: 'A1', ...lengths(layer) })
      expect(vias.of(one, layer)).toEqual(new NetVias(base, [there]).of(there))
    }
    expect(vias.of(one, 6)?.delay).toBeGreaterThan(vias.of(one, 3)?.delay ?? NaN)
  })

  it('is looked up once', () => {
    const vias = new NetVias(base, [one])
    expect(vias.of(one)).toBe(vias.of({ ...one }))
    expect(vias.of(one, 3)).toBe(vias.of(one))
  })

  it('takes the depth and the stub that the route has', () => {
    const { delay, impedance } = viaOf(base, one)
    const twice = viaOf(base, route({ net: 'DQ0', ball: 'A1', viaDepth: 2 * one.viaDepth }))
    expect((twice.delay * twice.impedance) / (delay * impedance)).toBeCloseTo(2, 12)
  })

  it('stands in a wider land where the package has its vias in pad', () => {
    const inPad = {
      ...base,
      packages: base.packages.map((pack) => ({
        ...pack,
        viaPlacement: 'in pad' as const,
        landDiameter: 0.55e-3,
      })),
    }
    expect(viaOf(inPad, one).capacitance).toBeGreaterThan(1.02 * viaOf(base, one).capacitance)
  })

  it('is none without a via, with one that the board does not have, and where it does not go', () => {
    const vias = new NetVias(base, [one])
    expect(vias.of({ ...one, via: null })).toBeNull()
    expect(vias.of({ ...one, via: 'nothing of that name' })).toBeNull()
    expect(vias.of(one, 9)).toBeNull()
    const blind = { ...base, vias: [via('through via', { kind: 'blind', lastLayer: 3 })] }
    expect(new NetVias(blind, [one]).of(one)?.delay).toBeGreaterThan(0)
    expect(new NetVias(blind, [one]).of(one, 6)).toBeNull()
  })

  it('is none on the layer of its land where its hole is drilled back to it', () => {
    const backdrill = { diameter: 0.4e-3, from: 'bottom' as const, residualStub: 0 }
    const drilled = { ...base, vias: base.vias.map((each) => ({ ...each, backdrill })) }
    expect(new NetVias(drilled, [one]).of(one, 1)).toBeNull()
    expect(new NetVias(drilled, [one]).of(one, 6)?.impedance).toBeGreaterThan(0)
  })

  it('is none where it cannot be solved: an opening that does not clear its pad', () => {
    const tight = { ...base, vias: base.vias.map((each) => ({ ...each, antipadDiameter: 0.15e-3 })) }
    expect(new NetVias(tight, [one]).of(one)).toBeNull()
  })

  it('through holes one below the other goes where it is planned to, and nowhere else', () => {
    const chained = {
      ...base,
      vias: [
        via('upper', { kind: 'microvia', lastLayer: 2, drilledDiameter: 0.1e-3, padDiameters: [3e-4, 3e-4] }),
        via('lower', { kind: 'buried', firstLayer: 2, lastLayer: 7 }),
      ],
    }
    const both = { ...one, via: 'upper + lower' }
    const vias = new NetVias(chained, [both])
    const line = vias.of(both)
    expect(line?.delay).toBeGreaterThan(0)
    // The drill of the first hole: a thinner wire, more inductance.
    expect(line?.inductance).toBeGreaterThan(viaOf(base, one).inductance)
    expect(vias.of(both, 6)).toBeNull()
    expect(vias.drilledBack(both, 0.1e-3)).toBeNull()
  })
})

describe('a via drilled back for trial', () => {
  const one = route({ net: 'DQ0', ball: 'A1' })
  const vias = new NetVias(base, [one])

  it('is that of a board whose via is drilled back as far', () => {
    const residualStub = 0.2e-3
    const backdrill = { diameter: 0.2e-3, from: 'bottom' as const, residualStub }
    const drilled = { ...base, vias: base.vias.map((each) => ({ ...each, backdrill })) }
    const there = { ...one, stubLength: residualStub }
    expect(vias.drilledBack(one, residualStub)).toEqual(new NetVias(drilled, [there]).of(there))
  })

  it('hangs less, and runs through as much', () => {
    const [whole, back] = [vias.of(one), vias.drilledBack(one, 0.1e-3)]
    expect(back?.hanging.capacitance).toBeLessThan(0.7 * (whole?.hanging.capacitance ?? NaN))
    expect((back?.delay ?? NaN) / (whole?.delay ?? NaN)).toBeCloseTo(1, 1)
  })

  it('is none where no more than that hangs, and without a via', () => {
    expect(vias.drilledBack(one, one.stubLength)).toBeNull()
    expect(vias.drilledBack({ ...one, via: null }, 0.1e-3)).toBeNull()
  })
})
