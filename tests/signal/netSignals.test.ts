import { describe, expect, it } from 'vitest'
import type { Board } from '../../src/board/board.ts'
import type { Route } from '../../src/routes/route.ts'
import type { NetSignal } from '../../src/signal/netSignal.ts'
import { netSignals } from '../../src/signal/netSignals.ts'
import type { ViaTable } from '../../src/impedance/viaLine.ts'
import { exampleBoard } from '../board/exampleBoard.ts'
import { NO_VIAS, modelTable, ps, route, um, withClass, withNet } from './fixtures.ts'
import { modelVias } from './modelVias.ts'

const LIGHT = 299_792_458
const base = await exampleBoard()

function signalOf(board: Board, routes: readonly Route[], vias: ViaTable = NO_VIAS): NetSignal {
  const [signal] = netSignals(board, routes, modelTable(board, routes), vias)
  if (signal === undefined) throw new Error('no signal')
  return signal
}

const oneEnd = [route({ net: 'DQ0', ball: 'A1' })]
const nearDelay = Math.sqrt(3.7) / LIGHT

describe('a net with one end described', () => {
  const signal = signalOf(base, oneEnd)

  it('is dog-bone, via, neck and main route', () => {
    expect(signal.sections.map((section) => section.kind)).toEqual(['dog-bone', 'via', 'neck', 'main'])
    expect(signal.sections.map((section) => section.layer)).toEqual([1, 3, 3, 3])
    expect(signal.sections.map((section) => section.package)).toEqual(['U1', 'U1', 'U1', null])
  })

  it('leaves its neck without the dog-bone', () => {
    const [dogBone, via, neck, main] = signal.sections
    expect(dogBone?.length).toBeCloseTo(0.566e-3, 15)
    expect(via?.length).toBeCloseTo(um(220), 15)
    expect(neck?.length).toBeCloseTo(3e-3 - 0.566e-3, 15)
    expect(main?.length).toBeNull()
  })

  it('takes its lines from the table and leaves the impedance of the via open', () => {
    const [dogBone, via, neck, main] = signal.sections
    expect(dogBone?.impedance).toBeGreaterThan(neck?.impedance ?? NaN)
    expect(via?.impedance).toBeNull()
    expect(main?.impedance).toBeCloseTo(50, 9)
    expect(neck?.band).toBe(0.02)
    expect(via?.method).toMatch(/barrel/)
  })

  it('has a step where both sides are known: neck to main route, not at the via', () => {
    expect(signal.steps).toHaveLength(1)
    const [step] = signal.steps
    expect([step?.from, step?.to]).toEqual(['neck at U1', 'main route'])
    const { impedanceFrom: z, reflection } = step ?? { impedanceFrom: NaN, reflection: NaN }
    expect(reflection).toBeCloseTo((50 - z) / (50 + z), 9)
  })

  it('adds up lengths and delays by layer and in total, barrel in the total alone', () => {
    expect(signal.breakoutOnly).toBe(true)
    expect(signal.perLayer.map(({ layer }) => layer)).toEqual([1, 3])
    expect(signal.totalLength).toBeCloseTo(3e-3 + um(220), 12)
    const onLayers = signal.perLayer.reduce((sum, { delay }) => sum + delay, 0)
    // Prepreg of 3.6 and core of 3.7 in series around 220 um of barrel.
    const barrel = signal.totalDelay - onLayers
    expect(barrel).toBeGreaterThan((um(220) * Math.sqrt(3.6)) / LIGHT)
    expect(barrel).toBeLessThan((um(220) * Math.sqrt(3.7)) / LIGHT)
    expect(signal.perLayer[1]?.delay).toBeCloseTo((3e-3 - 0.566e-3) * nearDelay, 18)
  })

  it('carries what its values rest on', () => {
    const board = withNet(base, 'DQ0', {
      assumed: [{ path: 'nets[0]', quantity: 'q', value: 'v', source: 's' }],
    })
    expect(signalOf(board, oneEnd).assumed.some(({ path }) => path === 'nets[0]')).toBe(true)
  })
})

describe('a net with a via that is known', () => {
  const signal = signalOf(base, oneEnd, modelVias())
  const without = signalOf(base, oneEnd)

  it('has the same sections, the via with its impedance', () => {
    expect(signal.sections.map(({ kind }) => kind)).toEqual(without.sections.map(({ kind }) => kind))
    expect(signal.sections[1]?.impedance).toBe(40)
  })

  it('has no steps at its via, which is too short to be one', () => {
    expect(signal.steps).toEqual(without.steps)
  })

  it('has its delay, and that of charging what hangs, in the total alone', () => {
    const [, barrel] = without.sections
    const neck = signal.sections[2]?.impedance ?? NaN
    // 3 ps through the barrel; 5 ps of 32 ohm hang, charged by half of the neck's impedance.
    const added = ps(3) - (barrel?.delay ?? NaN) + (neck / 2) * (ps(5) / 32)
    expect(signal.totalDelay - without.totalDelay).toBeCloseTo(added, 20)
    expect(signal.perLayer).toEqual(without.perLayer)
    expect(signal.totalLength).toBe(without.totalLength)
  })

  it('carries what its via rests on', () => {
    const note = { path: 'packages.U1.balls', quantity: 'way back', value: 'v', source: 's' }
    const assuming: ViaTable = {
      ...modelVias(),
      of: (one) => {
        const line = modelVias().of(one)
        return line && { ...line, assumed: [note] }
      },
    }
    expect(signalOf(base, oneEnd, assuming).assumed).toContainEqual(note)
    expect(signal.assumed).not.toContainEqual(note)
  })
})

describe('a net with two ends', () => {
  const twoPins = [
    { package: 'U1', ball: 'A1' },
    { package: 'U1', ball: 'A2' },
  ]
  const board = withNet(base, 'DQ0', { pins: twoPins, mainLength: 40e-3 })
  const routes = [route({ net: 'DQ0', ball: 'A2', exitLayer: 6 }), route({ net: 'DQ0', ball: 'A1' })]
  const signal = signalOf(board, routes)

  it('runs from its first ball out and into its second', () => {
    expect(signal.sections.map(({ kind }) => kind)).toEqual([
      'dog-bone',
      'via',
      'neck',
      'main',
      'neck',
      'via',
      'dog-bone',
    ])
    expect(signal.sections.map(({ layer }) => layer)).toEqual([1, 3, 3, 3, 6, 6, 1])
    expect(signal.ends.map(({ ball }) => ball)).toEqual(['A1', 'A2'])
  })

  it('is whole once the main length is given', () => {
    expect(signal.breakoutOnly).toBe(false)
    expect(signal.totalLength).toBeCloseTo(40e-3 + 2 * (3e-3 + um(220)), 12)
    expect(signal.totalDelay).toBeGreaterThan(40e-3 * nearDelay)
  })

  it('takes the main route to run on the layer of its first end, and says so', () => {
    expect(signal.assumed.at(-1)?.value).toBe('layer 3')
    const same = signalOf(
      board,
      routes.map((each) => ({ ...each, exitLayer: 3 })),
    )
    expect(same.assumed.some(({ value }) => value === 'layer 3')).toBe(false)
  })

  it('takes the length that its class gives where it has none of its own', () => {
    const classLength = withClass(base, 'data', {
      main: { width: null, gap: null, length: 25e-3, coplanarGap: null },
    })
    expect(signalOf(classLength, oneEnd).totalLength).toBeCloseTo(25e-3 + 3e-3 + um(220), 12)
  })
})

describe('a pair', () => {
  it('has differential impedance throughout', () => {
    const routes = [route({ net: 'DQS_P', ball: 'B3', width: um(75), gap: um(90) })]
    const signal = signalOf(base, routes)
    expect(signal.structure).toBe('pair')
    expect(signal.ends[0]?.mainImpedance).toBeCloseTo(90, 9)
    expect(signal.ends[0]?.neckImpedance).toBeGreaterThan(80)
    expect([80, 96]).toContain(signal.ends[0]?.reflection.device.deviceImpedance)
  })
})

describe('the nets of a board', () => {
  it('without a route or a class are left out, the others keep their order', () => {
    const routes = ['DQ3', 'DQ1', 'nobody'].map((net) => route({ net, ball: 'A1' }))
    const signals = netSignals(base, routes, modelTable(base, routes), NO_VIAS)
    expect(signals.map(({ net }) => net)).toEqual(['DQ1', 'DQ3'])
  })

  it('whose line is refused have sections without impedance and no end', () => {
    const table = modelTable(base, [])
    const [signal] = netSignals(base, [route({ net: 'DQ0', ball: 'A1' })], table, NO_VIAS)
    expect(signal?.ends).toEqual([])
    expect(signal?.sections.find(({ kind }) => kind === 'neck')?.impedance).toBeNull()
    expect(Number.isFinite(signal?.totalDelay)).toBe(true)
  })

  // NVIDIA Jetson TX2 OEM design guide, 2018, HDMI table: 175 ps/in stripline; 2.5 in take 437 ps.
  it('take 437 ps for 2.5 inch of stripline at 175 ps an inch', () => {
    const inch = 25.4e-3
    const permittivity = ((ps(175) / inch) * LIGHT) ** 2
    const stackup = {
      ...base.stackup,
      layers: base.stackup.layers.map((layer) =>
        layer.kind === 'dielectric'
          ? { ...layer, permittivity: { ...layer.permittivity, relative: permittivity } }
          : layer,
      ),
    }
    const board = withNet({ ...base, stackup }, 'DQ0', { mainLength: 2.5 * inch })
    const main = signalOf(board, oneEnd).sections.find(({ kind }) => kind === 'main')
    expect(Math.abs((main?.delay ?? NaN) / ps(1) - 437.5)).toBeLessThan(0.5)
  })
})
