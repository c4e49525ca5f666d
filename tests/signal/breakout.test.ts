import { describe, expect, it } from 'vitest'
import type { ViaTable } from '../../src/impedance/viaLine.ts'
import type { Route } from '../../src/routes/route.ts'
import { breakoutOf, lineFigures, type Breakout } from '../../src/signal/breakout.ts'
import { cascadeMatrix, scatteringOf } from '../../src/signal/scattering.ts'
import { exampleBoard } from '../board/exampleBoard.ts'
import { NO_VIAS, lineTable, modelTable, route, um } from './fixtures.ts'
import { modelVia, modelVias } from './modelVias.ts'

const base = await exampleBoard()
const [pack] = base.packages
const netClass = base.classes.find(({ name }) => name === 'data')
if (pack === undefined || netClass === undefined) throw new Error('no package or class')
const one = route({ net: 'DQ0', ball: 'A1' })

function breakout(
  change: Partial<Route> = {},
  keep: (stretch: string, layer: number) => boolean = () => true,
  vias: ViaTable = NO_VIAS,
): Breakout {
  if (pack === undefined || netClass === undefined) throw new Error('no package or class')
  const routed = route({ net: 'DQ0', ball: 'A1', ...change })
  const { entries } = modelTable(base, [routed])
  const table = lineTable(
    entries.filter(({ stretch, layer }) => keep(stretch, layer)),
    [routed],
  )
  return breakoutOf(base, table, vias, netClass, pack, routed)
}

describe('a breakout', () => {
  it('has its dog-bone on the layer of the land with the line of the neck there', () => {
    const [dogBone, , neck] = breakout().sections
    expect([dogBone?.kind, dogBone?.layer]).toEqual(['dog-bone', 1])
    // 75 um over one plane against 100 and 150 um between two.
    expect(dogBone?.impedance).not.toBe(neck?.impedance)
    expect(dogBone?.width).toBe(um(80))
  })

  it('counts the dog-bone’s delay as on the neck’s layer where the land’s layer has no line', () => {
    const [dogBone, , neck] = breakout({}, (stretch, layer) => !(stretch === 'neck' && layer === 1)).sections
    expect(dogBone?.impedance).toBeNull()
    expect(dogBone?.method).toMatch(/cannot carry/)
    const perMetre = (neck?.delay ?? NaN) / (neck?.length ?? NaN)
    expect(dogBone?.delay).toBeCloseTo((dogBone?.length ?? NaN) * perMetre, 20)
  })

  it('with the via in the land has no dog-bone, without a via no barrel', () => {
    expect(breakout({ dogBoneLength: 0 }).sections.map(({ kind }) => kind)).toEqual(['via', 'neck'])
    expect(breakout({ via: null, viaDepth: 0 }).sections.map(({ kind }) => kind)).toEqual([
      'dog-bone',
      'neck',
    ])
  })

  it('whose table has no line has neither impedance nor delay', () => {
    const neck = breakout({}, () => false).sections.at(-1)
    expect([neck?.impedance, neck?.delay]).toEqual([null, null])
    expect(neck?.method).toMatch(/not among the lines/)
  })

  it('is no wider than its line, as a neck is no wider than its main route', () => {
    expect(breakout({ width: um(400) }).sections.at(-1)?.width).toBeLessThan(um(120))
  })
})

describe('the via of a breakout', () => {
  const withVia = (change: Partial<Route> = {}): Breakout => breakout(change, () => true, modelVias())

  it('is a section with the impedance, delay and band that its table has', () => {
    const { sections, via } = withVia()
    expect(via).toEqual(modelVia(3))
    expect(sections.map(({ kind }) => kind)).toEqual(['dog-bone', 'via', 'neck'])
    expect(sections[1]).toMatchObject({ impedance: 40, delay: 3e-12, band: 0.15, layer: 3, length: um(220) })
    expect(sections[1]?.method).toMatch(/finite volumes/)
    expect(sections.map(({ hanging }) => hanging === null)).toEqual([true, false, true])
  })

  it('charges what hangs by half of the impedance of its neck: the delay of a capacitance across a line', () => {
    const [, via, neck] = withVia().sections
    const { hanging } = modelVia(3)
    expect(via?.hanging).toMatchObject(hanging)
    // Phase of the transmission past it, between lines of the neck's impedance, at a frequency far below its own.
    const z = neck?.impedance ?? NaN
    const { s21 } = scatteringOf(cascadeMatrix([{ impedance: z, delay: 0, hanging }], 1e8), z)
    const delay = -Math.atan2(s21.im, s21.re) / (2 * Math.PI * 1e8)
    expect((via?.hanging?.loadingDelay ?? NaN) / delay).toBeCloseTo(1, 4)
  })

  it('charges by its own impedance where the line of the neck is not known', () => {
    const via = breakout({ dogBoneLength: 0 }, () => false, modelVias()).sections[0]
    expect((via?.hanging?.loadingDelay ?? NaN) / ((40 / 2) * (5e-12 / 32))).toBeCloseTo(1, 12)
  })

  it('only hangs where the net leaves on the layer of its land', () => {
    const [, via] = withVia({ exitLayer: 1, viaDepth: 0 }).sections
    expect([via?.kind, via?.length]).toEqual(['via', 0])
    expect(via?.hanging?.delay).toBeCloseTo(7e-12, 24)
    // Nothing is known of such a one without its line.
    expect(breakout({ exitLayer: 1, viaDepth: 0 }).sections.map(({ kind }) => kind)).toEqual([
      'dog-bone',
      'neck',
    ])
  })

  it('that could not be solved is a barrel without impedance and without what hangs', () => {
    const [, via] = breakout().sections
    expect([via?.kind, via?.impedance, via?.hanging]).toEqual(['via', null, null])
    expect(via?.delay).toBeGreaterThan(0)
    expect(via?.method).toMatch(/could not be solved/)
  })
})

describe('the figures of a line', () => {
  it('name the reason where it was refused', () => {
    const [entry] = modelTable(base, [one]).entries
    if (entry === undefined) throw new Error('no entry')
    expect(lineFigures({ ...entry, impedance: null, refusal: 'too thin' }, 1e-3)).toEqual({
      impedance: null,
      band: null,
      method: 'too thin',
      delay: null,
    })
    expect(lineFigures(entry, null).delay).toBeNull()
  })
})
