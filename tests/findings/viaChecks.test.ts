import { describe, expect, it } from 'vitest'
import { holesNamed } from '../../src/board/lookup.ts'
import { assumedLimits, depthBetween, planesPassed, viasInField } from '../../src/findings/boardIndex.ts'
import { drillIsDeepEnough, holesOf, ringsOf } from '../../src/findings/viaChecks.ts'
import { exampleBoard } from '../board/exampleBoard.ts'
import { route, um } from '../signal/fixtures.ts'
import { contextOf, throughVia, withFabrication, withVia } from './fixtures.ts'

const base = await exampleBoard()
const via = throughVia(base)

describe('the depth of a hole', () => {
  it('counts copper and dielectric from face to face, mask left out', () => {
    expect(depthBetween(base, 1, 8)).toBeCloseTo(um(1050), 12)
    expect(depthBetween(base, 1, 2)).toBeCloseTo(um(40 + 75 + 15), 12)
    expect(depthBetween(base, 3, 2)).toBeCloseTo(um(15 + 100 + 15), 12)
    expect(depthBetween(base, 3, 3)).toBeCloseTo(um(15), 12)
  })

  it('of microvias is that of one dielectric each, from above in the upper half and from below in the lower', () => {
    const kind = { kind: 'microvia', arrangement: 'staggered' } as const
    const depths = (first: number, last: number): number[] =>
      holesOf(base, { ...via, ...kind, firstLayer: first, lastLayer: last }).map(({ depth }) => depth)
    expect(depths(1, 3)).toEqual([expect.closeTo(um(40 + 75), 9), expect.closeTo(um(15 + 100), 9)])
    expect(depths(6, 8)).toEqual([expect.closeTo(um(100 + 15), 9), expect.closeTo(um(75 + 40), 9)])
  })

  it('is enough for a drill up to the aspect ratio', () => {
    const limited = withFabrication(base, { aspectRatio: { drilled: 7, microvia: 1 } })
    expect(drillIsDeepEnough(limited, via, um(150))).toBe(true)
    expect(drillIsDeepEnough(limited, via, um(149))).toBe(false)
    expect(drillIsDeepEnough(limited, via, 0)).toBe(false)
  })
})

describe('the rings of a via', () => {
  it('are external on the two outer layers and internal between', () => {
    expect(ringsOf(base, via).map(({ place }) => place)).toEqual([
      'external',
      ...Array.from({ length: 6 }, () => 'internal'),
      'external',
    ])
  })

  it('of a blind via are external on one side only', () => {
    const blind = { ...via, firstLayer: 1, lastLayer: 3, padDiameters: via.padDiameters.slice(0, 3) }
    expect(ringsOf(base, blind).map(({ place }) => place)).toEqual(['external', 'internal', 'internal'])
  })
})

describe('the vias of a board', () => {
  it('pass the planes strictly inside their span', () => {
    expect(planesPassed(base, via).map(({ number }) => number)).toEqual([2, 4, 5, 7])
    expect(planesPassed(base, { ...via, firstLayer: 2, lastLayer: 4 })).toEqual([])
  })

  it('are found by name, one by one where a route runs through several', () => {
    const two = { ...base, vias: [via, { ...via, name: 'blind' }, { ...via, name: 'a + b' }] }
    const names = (name: string | null): string[] => holesNamed(two, name).map((each) => each.name)
    expect(names('through via + blind')).toEqual(['through via', 'blind'])
    expect(names('a + b')).toEqual(['a + b'])
    expect(names(null)).toEqual([])
  })

  it('in the field of a package are its own and those that its routes take', () => {
    const two = { ...base, vias: [via, { ...via, name: 'blind' }] }
    const context = contextOf(two, { routes: [route({ net: 'DQ0', ball: 'A1', via: 'blind' })] })
    const [pack] = two.packages
    if (pack === undefined) throw new Error('no package')
    expect(viasInField(context, pack).map(({ name }) => name)).toEqual(['through via', 'blind'])
  })
})

describe('assumed limits', () => {
  it('are those of the keys asked for, and the class where that was a guess', () => {
    const assumed = ['class', 'drill_to_copper', 'registration'].map((key) => ({
      path: `fabrication.${key}`,
      quantity: key,
      value: 'v',
      source: 's',
    }))
    const board = withFabrication(withVia(base, {}), { assumed })
    expect(assumedLimits(board, 'drill_to_copper').map(({ quantity }) => quantity)).toEqual([
      'class',
      'drill_to_copper',
    ])
  })
})
