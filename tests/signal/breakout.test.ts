import { describe, expect, it } from 'vitest'
import type { Route } from '../../src/routes/route.ts'
import { breakoutOf, lineFigures, type Breakout } from '../../src/signal/breakout.ts'
import { exampleBoard } from '../board/exampleBoard.ts'
import { NO_VIAS, lineTable, modelTable, route, um } from './fixtures.ts'

const base = await exampleBoard()
const [pack] = base.packages
const netClass = base.classes.find(({ name }) => name === 'data')
if (pack === undefined || netClass === undefined) throw new Error('no package or class')
const one = route({ net: 'DQ0', ball: 'A1' })

function breakout(
  change: Partial<Route> = {},
  keep: (stretch: string, layer: number) => boolean = () => true,
): Breakout {
  if (pack === undefined || netClass === undefined) throw new Error('no package or class')
  const routed = route({ net: 'DQ0', ball: 'A1', ...change })
  const { entries } = modelTable(base, [routed])
  const table = lineTable(
    entries.filter(({ stretch, layer }) => keep(stretch, layer)),
    [routed],
  )
  return breakoutOf(base, table, NO_VIAS, netClass, pack, routed)
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
