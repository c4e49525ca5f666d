import { describe, expect, it } from 'vitest'
import type { FindingContext } from '../../src/findings/context.ts'
import { caseOf, neckGroups, scaledCase, type NeckEnd } from '../../src/findings/neckEnds.ts'
import {
  atLength,
  atWidth,
  besideMain,
  firstPassing,
  nearWidths,
  onOtherLayer,
  traceDelay,
  withStub,
} from '../../src/findings/neckTrials.ts'
import type { ViaTable } from '../../src/impedance/viaLine.ts'
import type { Route } from '../../src/routes/route.ts'
import type { NeckCase } from '../../src/signal/neckReflection.ts'
import { exampleBoard } from '../board/exampleBoard.ts'
import { NO_VIAS, modelLineOn, route, um } from '../signal/fixtures.ts'
import { modelVia, modelVias } from '../signal/modelVias.ts'
import { contextOf } from './fixtures.ts'

const base = await exampleBoard()
const LIGHT = 299_792_458

/** One net with dog-bone, via and neck, by the models of the tests. */
function oneNeck(vias: ViaTable, change: Partial<Route> = {}): { context: FindingContext; neck: NeckEnd } {
  const context = contextOf(base, { routes: [route({ net: 'DQ0', ball: 'A1', ...change })], vias })
  const neck = neckGroups(context)[0]?.[0]
  if (neck === undefined) throw new Error('no neck')
  return { context, neck }
}

/** From the main route to the ball: neck, via, dog-bone. */
function parts(tried: NeckCase | null): NeckCase['sections'][number][] {
  if (tried === null) throw new Error('not tried')
  expect(tried.sections).toHaveLength(3)
  return [...tried.sections]
}

const via = ({ impedance, delay }: { impedance: number; delay: number }, stub: number): object => ({
  impedance,
  delay,
  hanging: expect.objectContaining({ impedance: 32, delay: stub }) as object,
})

const { context, neck } = oneNeck(modelVias())
const [own, ownVia, ownBone] = parts(caseOf(neck))
const stub = modelVia(3).hanging.delay

describe('a neck as it stands', () => {
  it('is its sections from the main route to the ball, its via with what hangs towards the neck', () => {
    expect(ownVia).toEqual(via(modelVia(3), stub))
    expect(own?.delay).toBeCloseTo(((3e-3 - 0.566e-3) * Math.sqrt(3.7)) / LIGHT, 18)
    expect(ownBone?.delay).toBeCloseTo((0.566e-3 * Math.sqrt(3.6)) / LIGHT, 18)
  })

  it('is the right one of two in one package on one layer', () => {
    const routes = [3e-3, 2e-3].map((neckLength, index) =>
      route({ net: 'DQ0', ball: index === 0 ? 'A1' : 'B1', neckLength }),
    )
    const both = neckGroups(contextOf(base, { routes })).flat()
    const delays = both.map((each) => caseOf(each).sections[0]?.delay ?? NaN)
    expect(both.map(({ end }) => end.neckLength)).toEqual([3e-3, 2e-3])
    expect((delays[0] ?? NaN) / (delays[1] ?? NaN)).toBeCloseTo((3e-3 - 0.566e-3) / (2e-3 - 0.566e-3), 9)
  })

  it('has a via that is nothing where it could not be solved', () => {
    const [, none] = parts(caseOf(oneNeck(NO_VIAS).neck))
    expect(none?.delay).toBe(0)
    expect(none?.hanging).toBeNull()
  })

  it('has its traces higher by a factor, and its via as it is', () => {
    const [line, same, bone] = parts(scaledCase(neck, 1.1))
    expect(line?.impedance).toBeCloseTo(1.1 * (own?.impedance ?? NaN), 12)
    expect(bone?.impedance).toBeCloseTo(1.1 * (ownBone?.impedance ?? NaN), 12)
    expect(same).toEqual(ownVia)
  })

  it('has its via, with what hangs of it, higher by another factor', () => {
    const [line, scaled] = parts(scaledCase(neck, 1, 0.85))
    expect(line).toEqual(own)
    expect(scaled).toMatchObject({ impedance: 0.85 * 40, delay: ownVia?.delay })
    expect(scaled?.hanging).toMatchObject({ impedance: 0.85 * 32, delay: stub })
  })

  it('stays as it is beside another main route', () => {
    expect(besideMain(neck, 61)).toEqual({ ...caseOf(neck), main: 61 })
  })
})

describe('a neck at another width', () => {
  const at = (width: number, layer: number): number =>
    modelLineOn(base.stackup, { layer, width, gap: null, coplanarGap: null, broadsideLayer: null }).impedance

  it('changes neck and dog-bone, and leaves its via', () => {
    const [line, same, bone] = parts(atWidth(context, neck, um(95)))
    expect(line?.impedance).toBeCloseTo(at(um(95), 3), 9)
    expect(bone?.impedance).toBeCloseTo(at(um(95), 1), 9)
    expect(line?.delay).toBeCloseTo(own?.delay ?? NaN, 18)
    expect(same).toEqual(ownVia)
  })

  it('is nearly the same in a search', () => {
    const near = nearWidths(context, neck)
    for (const width of [um(70), um(95), um(110)]) {
      const [exact, found] = [parts(atWidth(context, neck, width)), parts(near(width))]
      expect(found[1]).toEqual(ownVia)
      expect((found[0]?.impedance ?? NaN) / (exact[0]?.impedance ?? NaN)).toBeCloseTo(1, 3)
      expect((found[2]?.impedance ?? NaN) / (exact[2]?.impedance ?? NaN)).toBeCloseTo(1, 3)
    }
  })
})

describe('a neck at another length', () => {
  it('is shorter on its own layer alone', () => {
    const [line, same, bone] = parts(atLength(neck, 0.566e-3 + 1e-3))
    expect(line?.delay).toBeCloseTo((1e-3 * Math.sqrt(3.7)) / LIGHT, 18)
    expect(same).toEqual(ownVia)
    expect(bone).toEqual(ownBone)
  })

  it('is none shorter than its dog-bone', () => {
    expect(atLength(neck, 0.5e-3)).toBeNull()
  })
})

describe('a neck on another layer', () => {
  it('takes the via that goes there, with the lines of that layer', () => {
    const tried = onOtherLayer(context, neck, 6)
    const [line, other, bone] = parts(tried)
    expect(other).toMatchObject(via(modelVia(6), modelVia(6).hanging.delay))
    expect(other?.delay).not.toBe(ownVia?.delay)
    expect(line?.impedance).toBe(context.lines.neck('data', 6, 'U1', null)?.runs?.impedance)
    expect(bone).toEqual(ownBone)
    expect(tried?.main).toBe(context.lines.main('data', 6)?.impedance?.impedance)
  })

  it('is none where its via does not go, and where there are no lines', () => {
    const short = oneNeck(modelVias(5))
    expect(onOtherLayer(short.context, short.neck, 6)).toBeNull()
    expect(onOtherLayer(context, neck, 4)).toBeNull()
  })

  it('goes without a via that could not be solved, which is nothing on any layer', () => {
    const unsolved = oneNeck(NO_VIAS)
    const [line, none] = parts(onOtherLayer(unsolved.context, unsolved.neck, 6))
    expect(none?.delay).toBe(0)
    expect(line?.impedance).toBeGreaterThan(0)
  })
})

describe('a neck with its via drilled back', () => {
  it('hangs by less, and is the same besides', () => {
    // The route hangs by 650 um, 5 ps of the model.
    const [line, back, bone] = parts(withStub(context, neck, um(130)))
    expect(back?.hanging?.delay).toBeCloseTo(stub / 5, 20)
    expect([back?.impedance, back?.delay]).toEqual([ownVia?.impedance, ownVia?.delay])
    expect([line, bone]).toEqual([own, ownBone])
  })

  it('is none where no more than that hangs, and without a via that is known', () => {
    expect(withStub(context, neck, um(650))).toBeNull()
    const unsolved = oneNeck(NO_VIAS)
    expect(withStub(unsolved.context, unsolved.neck, um(130))).toBeNull()
  })
})

describe('the travel along a neck that is tried', () => {
  it('is that along its traces, whatever its via takes', () => {
    const traces = (own?.delay ?? NaN) + (ownBone?.delay ?? NaN)
    expect(traceDelay(neck, caseOf(neck))).toBeCloseTo(traces, 20)
    expect(traceDelay(neck, caseOf(neck))).toBeCloseTo(neck.end.neckDelay, 18)
    expect(traceDelay(neck, onOtherLayer(context, neck, 6))).toBeCloseTo(traces, 18)
  })

  it('of what cannot be is none', () => {
    expect(traceDelay(neck, null)).toBe(0)
  })
})

describe('the way from a neck that fails to one that passes', () => {
  const search = { ...neck, end: { ...neck.end, reflection: { ...neck.end.reflection, limit: 0.05 } } }
  /** A single section beside 50 ohm as high as the value says. */
  const trial = (impedance: number): NeckCase => ({
    ...besideMain(neck, 50),
    sections: [{ impedance, delay: 1e-9 }],
  })

  it('ends where the reflection of a long section is just within its limit', () => {
    // Between lines of 50 ohm the first joint decides, (Z − 50)/(Z + 50) of an edge short against the section.
    const gentle = { ...search, netClass: { ...search.netClass, sourceImpedance: 50, loadImpedance: 50 } }
    const passing = firstPassing(context, gentle, 70, 51, trial) ?? NaN
    expect((passing - 50) / (passing + 50)).toBeGreaterThan(0.0495)
    expect((passing - 50) / (passing + 50)).toBeLessThan(0.05)
  })

  it('is none where the far end fails, the near one passes, or a trial on the way cannot be', () => {
    expect(firstPassing(context, search, 70, 65, trial)).toBeNull()
    expect(firstPassing(context, search, 51, 50.5, trial)).toBeNull()
    expect(firstPassing(context, search, 70, 51, () => null)).toBeNull()
  })
})
