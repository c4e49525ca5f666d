import { describe, expect, it } from 'vitest'
import type { Board } from '../../src/board/board.ts'
import { magnitude } from '../../src/numerics/complex.ts'
import type { Route } from '../../src/routes/route.ts'
import { neckBeforeDevice, neckBetweenMain } from '../../src/signal/neckReflection.ts'
import type { NetSignal } from '../../src/signal/netSignal.ts'
import { netSignals } from '../../src/signal/netSignals.ts'
import { cascadeMatrix, scatteringOf } from '../../src/signal/scattering.ts'
import type { ViaTable } from '../../src/impedance/viaLine.ts'
import { exampleBoard } from '../board/exampleBoard.ts'
import { NO_VIAS, gaussian, modelTable, route, um, withClass } from './fixtures.ts'
import { echoesOf } from './bounceSeries.ts'
import { modelVia, modelVias } from './modelVias.ts'
import { seriesAt } from './spectralRoute.ts'

const LIGHT = 299_792_458
const base = await exampleBoard()

function signalOf(board: Board, routes: readonly Route[], vias: ViaTable = NO_VIAS): NetSignal {
  const [signal] = netSignals(board, routes, modelTable(board, routes), vias)
  if (signal === undefined) throw new Error('no signal')
  return signal
}

const oneEnd = [route({ net: 'DQ0', ball: 'A1' })]
const nearDelay = Math.sqrt(3.7) / LIGHT

describe('an end of a net', () => {
  const { ends } = signalOf(base, oneEnd)
  const [end] = ends
  if (end === undefined) throw new Error('no end')

  it('is as long as the whole narrow stretch, and measured in edges', () => {
    expect(end.neckLength).toBeCloseTo(3e-3, 15)
    expect(end.edgeLength).toBeCloseTo(end.riseTime / nearDelay, 12)
    const dogBone = (0.566e-3 * Math.sqrt(3.6)) / LIGHT
    expect(end.neckDelay).toBeCloseTo((3e-3 - 0.566e-3) * nearDelay + dogBone, 18)
    expect(end.electricalLength.share).toBeCloseTo(end.neckDelay / end.riseTime, 12)
    expect(end.electricalLength.limit).toBe(0.1667)
    expect(end.electricalLength.limitSource).toMatch(/analysis/)
  })

  it('is electrically long once its share passes the limit', () => {
    const slow = signalOf(withClass(base, 'data', { edge: gaussian(end.neckDelay / 0.16 / 1e-12) }), oneEnd)
    const fast = signalOf(withClass(base, 'data', { edge: gaussian(end.neckDelay / 0.17 / 1e-12) }), oneEnd)
    expect(slow.ends[0]?.electricalLength.long).toBe(false)
    expect(fast.ends[0]?.electricalLength.long).toBe(true)
  })

  it('reflects as the cascade of neck and dog-bone does, main route on both sides', () => {
    const [dogBone, , neck] = signalOf(base, oneEnd).sections
    const sections = [neck, dogBone].map((section) => ({
      impedance: section?.impedance ?? NaN,
      delay: section?.delay ?? NaN,
    }))
    const edge = base.classes.find(({ name }) => name === 'data')?.edge ?? gaussian(NaN)
    const alone = neckBetweenMain({ main: end.mainImpedance, sections, edge })
    expect(end.reflection.mainBothSides.exact).toBeCloseTo(alone.exact, 12)
    expect(end.reflection.mainBothSides.shortSection).toBeCloseTo(alone.shortSection, 12)
    const devices = [40, 48].map(
      (device) => neckBeforeDevice({ main: end.mainImpedance, sections, edge }, device).exact,
    )
    expect(Math.abs(end.reflection.device.exact)).toBeCloseTo(Math.max(...devices.map(Math.abs)), 12)
    expect([40, 48]).toContain(end.reflection.device.deviceImpedance)
  })

  it('takes its limit from its class before the board', () => {
    expect(end.reflection.limit).toBe(0.05)
    const own = signalOf(withClass(base, 'data', { reflectionLimit: 0.08 }), oneEnd)
    expect(own.ends[0]?.reflection.limit).toBe(0.08)
    expect(own.ends[0]?.reflection.limitSource).toMatch(/data/)
  })

  it('names the source of a limit that was assumed', async () => {
    const board = await exampleBoard([[', reflection_limit: 5 %, electrical_length_limit: 0.1667', '']])
    const [assumed] = signalOf(board, oneEnd).ends
    expect(assumed?.electricalLength.limitSource).toMatch(/sixth/)
    expect(assumed?.reflection.limitSource).toMatch(/10 %/)
  })

  it('holds its length against the published allowance as a column of its own', () => {
    expect(end.allowance).toBeNull()
    for (const [length, exceeded] of [
      [2.9e-3, true],
      [3.1e-3, false],
    ] as const) {
      const board = withClass(base, 'data', { neckAllowance: { length, source: 'a guide' } })
      expect(signalOf(board, oneEnd).ends[0]?.allowance).toEqual({ length, source: 'a guide', exceeded })
    }
  })

  it('at Nyquist reflects little of a short neck, and nothing without a rate', () => {
    expect(end.reflection.atNyquist).toBeNull()
    const rated = withClass(base, 'data', { dataRate: { bitRate: 3.2e9, levels: 2, nyquist: 1.6e9 } })
    const at = signalOf(rated, oneEnd).ends[0]?.reflection.atNyquist
    expect(at?.frequency).toBe(1.6e9)
    // The bounce series at that frequency, which knows no loss: 3e-3 neper over the neck, there and back.
    const [dogBone, , neck] = signalOf(rated, oneEnd).sections
    const sections = [neck, dogBone].map((section) => ({
      impedance: section?.impedance ?? NaN,
      delay: section?.delay ?? NaN,
    }))
    const { mainImpedance: main } = end
    const lossless = magnitude(seriesAt(echoesOf({ before: main, sections, after: main }), 1.6e9))
    expect(Math.abs((at?.magnitude ?? NaN) / lossless - 1)).toBeLessThan(0.01)
  })

  it('at Nyquist loses in its conductor as the root of the frequency, in its dielectric in proportion', () => {
    const rated = withClass(base, 'data', { dataRate: { bitRate: 50e9, levels: 2, nyquist: 25e9 } })
    const [dogBone, , neck] = signalOf(rated, oneEnd).sections
    // The model of the tests loses 0.5 Np/m in the conductor and 0.2 Np/m in the dielectric at 1 GHz.
    const sections = [neck, dogBone].map((section) => ({
      impedance: section?.impedance ?? NaN,
      delay: section?.delay ?? NaN,
      attenuation: (section?.length ?? NaN) * (0.5 * Math.sqrt(25) + 0.2 * 25),
    }))
    const { s11 } = scatteringOf(cascadeMatrix(sections, 25e9), end.mainImpedance)
    const at = signalOf(rated, oneEnd).ends[0]?.reflection.atNyquist
    expect(at?.magnitude).toBeCloseTo(magnitude(s11), 12)
  })

  it('has a stub with its null and, at a data rate, its longest length', () => {
    const rated = withClass(base, 'data', { dataRate: { bitRate: 12e9, levels: 2, nyquist: 6e9 } })
    const stub = signalOf(rated, oneEnd).ends[0]?.stub
    expect(stub?.length).toBeCloseTo(um(650), 12)
    // D. Telian, Signal Integrity Journal 2962, quoting E. Bogatin: 0.025 inch at 12 Gb/s.
    expect(Math.abs((stub?.lengthLimit ?? NaN) / 25.4e-3 - 0.025)).toBeLessThan(0.0005)
    const unloaded = LIGHT / (4 * um(650) * Math.sqrt(3.65))
    expect(stub?.nullFrequency).toBeLessThan(unloaded)
    expect(stub?.nullFrequency).toBeGreaterThan(unloaded / Math.sqrt(1.5))
    expect(end.stub?.lengthLimit).toBeNull()
  })

  it('on the layer of the land has neither via nor stub', () => {
    const surface = signalOf(base, [
      route({
        net: 'DQ0',
        ball: 'A1',
        exitLayer: 1,
        via: null,
        viaDepth: 0,
        stubLength: 0,
        dogBoneLength: 0,
      }),
    ])
    expect(surface.sections.map(({ kind }) => kind)).toEqual(['neck', 'main'])
    expect(surface.ends[0]?.stub).toBeNull()
  })
})

describe('an end of a net with its via', () => {
  const signal = signalOf(base, oneEnd, modelVias())
  const [end] = signal.ends
  const [without] = signalOf(base, oneEnd).ends
  if (end === undefined || without === undefined) throw new Error('no end')
  const [dogBone, , neck] = signal.sections
  const trace = (section: typeof neck): { impedance: number; delay: number } => ({
    impedance: section?.impedance ?? NaN,
    delay: section?.delay ?? NaN,
  })
  const { impedance, delay, hanging } = modelVia(3)
  const edge = base.classes.find(({ name }) => name === 'data')?.edge ?? gaussian(NaN)
  const sections = [trace(neck), { impedance, delay, hanging }, trace(dogBone)]
  const main = end.mainImpedance

  it('reflects as the cascade of neck, via with what hangs towards the neck, and dog-bone does', () => {
    const alone = neckBetweenMain({ main, sections, edge })
    expect(end.reflection.mainBothSides).toEqual(alone)
    expect(alone.exact).not.toBeCloseTo(without.reflection.mainBothSides.exact, 3)
    // What hangs towards the dog-bone instead is another neck.
    const turned = [trace(neck), { impedance, delay }, { ...trace(dogBone), hanging }]
    expect(neckBetweenMain({ main, sections: turned, edge }).exact).not.toBeCloseTo(alone.exact, 5)
    const devices = [40, 48].map((device) => neckBeforeDevice({ main, sections, edge }, device).exact)
    expect(Math.abs(end.reflection.device.exact)).toBe(Math.max(...devices.map(Math.abs)))
  })

  it('says what its traces alone would reflect: the larger of both cases', () => {
    const traces = [trace(neck), trace(dogBone)]
    const peaks = [
      neckBetweenMain({ main, sections: traces, edge }).exact,
      ...[40, 48].map((device) => neckBeforeDevice({ main, sections: traces, edge }, device).exact),
    ]
    expect(Math.abs(end.reflection.withoutVia ?? NaN)).toBe(Math.max(...peaks.map(Math.abs)))
    expect(without.reflection.withoutVia).toBeNull()
  })

  it('is no longer for it: the neck is measured in edges along its traces', () => {
    expect(end.neckDelay).toBe(without.neckDelay)
    expect(end.electricalLength).toEqual(without.electricalLength)
    expect(end.stub).toEqual(without.stub)
  })

  it('at Nyquist loses nothing in its via', () => {
    const rated = withClass(base, 'data', { dataRate: { bitRate: 20e9, levels: 2, nyquist: 10e9 } })
    const at = signalOf(rated, oneEnd, modelVias()).ends[0]?.reflection.atNyquist
    // The model of the tests loses 0.5 Np/m in the conductor and 0.2 Np/m in the dielectric at 1 GHz.
    const lossOf = (length: number | null | undefined): number =>
      (length ?? NaN) * (0.5 * Math.sqrt(10) + 0.2 * 10)
    const lossy = [
      { ...trace(neck), attenuation: lossOf(neck?.length) },
      { impedance, delay, hanging },
      { ...trace(dogBone), attenuation: lossOf(dogBone?.length) },
    ]
    expect(at?.magnitude).toBeCloseTo(magnitude(scatteringOf(cascadeMatrix(lossy, 10e9), main).s11), 12)
  })

  it('that only hangs, on the layer of the land, still reflects', () => {
    const surface = route({ net: 'DQ0', ball: 'A1', exitLayer: 1, viaDepth: 0, dogBoneLength: 0 })
    const [hangs] = signalOf(base, [surface], modelVias()).ends
    const [bare] = signalOf(base, [surface]).ends
    expect(hangs?.reflection.mainBothSides.exact).toBeLessThan(bare?.reflection.mainBothSides.exact ?? NaN)
    expect(bare?.reflection.withoutVia).toBeNull()
  })

  it('does not take the peak of one via for that of another', () => {
    const two = [route({ net: 'DQ0', ball: 'A1' }), route({ net: 'DQ1', ball: 'A2' })]
    const byBall: ViaTable = {
      ...modelVias(),
      of: ({ ball }) => {
        const line = modelVia(3)
        return ball === 'A1' ? line : { ...line, hanging: { ...line.hanging, delay: 2 * line.hanging.delay } }
      },
    }
    const signals = netSignals(base, two, modelTable(base, two), byBall)
    const [one, other] = signals.map(({ ends }) => ends[0]?.reflection.mainBothSides.exact ?? NaN)
    expect(one).toBe(end.reflection.mainBothSides.exact)
    expect(other).not.toBe(one)
  })
})
