import { describe, expect, it } from 'vitest'
import type { Package } from '../../src/board/packages.ts'
import type { ChannelFit, PackageEscape } from '../../src/escape/escape.ts'
import { planEscape } from '../../src/escape/planEscape.ts'
import { escapePackage } from '../../src/escape/escapePackage.ts'
import {
  boardOf,
  copperStack,
  fabrication,
  netClass,
  packageOf,
  padsOf,
  square,
  um,
  via,
} from './fixtures.ts'

const mil = (value: number): number => value * 25.4e-6

describe('escapePackage', () => {
  it('sums up a package: channels, signals, rules, two plans and the one its via belongs to', () => {
    const pack = packageOf(square(16))
    const escape = escapePackage(boardOf(pack), pack)
    expect(escape).toMatchObject({
      package: 'U1',
      channelsPerLayer: 60,
      signals: { count: 256, assumed: false, deepestRing: 8 },
      chosen: 'through',
    })
    expect(escape.plans.map(({ technology }) => technology)).toEqual(['through', 'blind'])
    const rows = escape.rules
      .filter(({ id }) => id === 'rows')
      .map(({ technology, signalLayers }) => [technology, signalLayers])
    expect(rows).toEqual([
      ['through', 6],
      ['blind', 4],
    ])
  })

  it('is blind where the package’s own via is, whatever else is described', () => {
    const pack = packageOf(square(4), { via: 'micro' })
    const vias = [via('through'), via('micro', { kind: 'microvia', lastLayer: 2 })]
    expect(escapePackage(boardOf(pack, { vias }), pack).chosen).toBe('blind')
    expect(escapePackage(boardOf(pack, { vias }), { ...pack, via: 'through' }).chosen).toBe('through')
  })

  it('plans blind vias like through ones where none is described, and says so', () => {
    const pack = packageOf(square(9, (row, column) => ((row + 2 * column) % 5 === 0 ? 'g' : 's')))
    const board = boardOf(pack)
    const [, blind] = escapePackage(board, pack).plans
    const planned = planEscape(board, pack, 'blind')
    expect(blind?.routes).toEqual(planned.routes)
    expect(blind?.layers).toEqual(planned.layers)
    expect(blind?.unescaped).toEqual(planned.unescaped)
    expect(blind?.technology).toBe('blind')
    expect(blind?.method).toContain('no blind via starts at the lands of U1')
  })

  it('lengthens the necks of both plans where main routes need room, and says of the chosen one where they begin', () => {
    const pack = packageOf(square(8), { via: 'micro' })
    const vias = [
      via('through'),
      via('micro', {
        kind: 'microvia',
        lastLayer: 2,
        drilledDiameter: um(100),
        padDiameters: padsOf(2, 250),
      }),
    ]
    const board = boardOf(pack, {
      vias,
      classes: [netClass('single', { neck: { width: um(75), gap: um(75) } })],
    })
    const bare = escapePackage(board, pack)
    const escape = escapePackage(board, pack, () => um(400))
    expect(bare.mains).toEqual([])
    expect(bare.withoutMain).toEqual([])
    expect(escape.chosen).toBe('blind')
    const addedIn = (index: number): number[] => {
      const before = bare.plans[index]?.routes ?? []
      return (escape.plans[index]?.routes ?? []).map(
        ({ neckLength }, place) => neckLength - (before[place]?.neckLength ?? NaN),
      )
    }
    const runOns = new Map(escape.mains.map(({ ball, runOnLength }) => [ball, runOnLength]))
    for (const [place, more] of addedIn(1).entries()) {
      expect(more).toBeCloseTo(runOns.get(escape.plans[1]?.routes[place]?.ball ?? '') ?? 0, 12)
    }
    for (const added of [addedIn(0), addedIn(1)]) {
      expect(Math.min(...added)).toBeGreaterThanOrEqual(0)
      expect(Math.max(...added)).toBeGreaterThan(um(100))
    }
  })

  it('takes one 4/4 mil trace between 18 mil via pads at 0.8 mm, and no 5/5 mil one (common practice, no source)', () => {
    const both = (gap: number): Pick<ReturnType<typeof fabrication>, 'traceGap' | 'traceToPad'> => ({
      traceGap: { outer: mil(gap), inner: mil(gap) },
      traceToPad: { outer: mil(gap), inner: mil(gap) },
    })
    const fits = (width: number): ChannelFit | undefined => {
      const pack = packageOf(square(4))
      const board = boardOf(pack, {
        vias: [via('through', { padDiameters: padsOf(12, 457.2), drilledDiameter: mil(8) })],
        classes: [netClass('single', { neck: { width: mil(width), gap: null } })],
        fabrication: fabrication({ ...both(width), drillToCopper: mil(7) }),
      })
      return escapePackage(board, pack).channels.find(
        ({ layer, obstacle, direction }) =>
          layer === 3 && obstacle === 'via pad' && direction === 'between columns',
      )
    }
    expect(fits(4)).toMatchObject({ traces: 1, obstacle: 'via pad', innerPads: 'kept' })
    expect(fits(4)?.remainder).toBeCloseTo(mil(1.496), 8)
    expect(fits(5)?.traces).toBe(0)
    expect(fits(5)?.remainder).toBeCloseTo(-mil(1.504), 8)
  })
})

describe('the channels of a package', () => {
  const of = (pack: Package, layers = 4): PackageEscape['channels'] =>
    escapePackage(
      boardOf(pack, { stackup: copperStack(layers, [2]), vias: [via('through', { lastLayer: layers })] }),
      pack,
    ).channels
  const kinds = (fits: readonly ChannelFit[], layer: number): string[] => [
    ...new Set(
      fits.filter((fit) => fit.layer === layer).map(({ obstacle, innerPads }) => `${obstacle}, ${innerPads}`),
    ),
  ]

  it('are lands with their mask on the outer layer, via pads and bare holes inside, via pads on the far side', () => {
    const fits = of(packageOf(square(4)))
    expect([...new Set(fits.map(({ layer }) => layer))]).toEqual([1, 3, 4])
    expect(kinds(fits, 1)).toEqual(['land, kept'])
    expect(kinds(fits, 3)).toEqual(['via pad, kept', 'hole without pad, removed'])
    expect(kinds(fits, 4)).toEqual(['via pad, kept'])
    const rules = (obstacle: ChannelFit['obstacle']): string[] =>
      fits.find((fit) => fit.obstacle === obstacle)?.tests.map(({ rule }) => rule) ?? []
    expect(rules('land')).toEqual(['trace to pad', 'mask opening to trace'])
    expect(rules('via pad')).toEqual(['trace to pad', 'drill to copper'])
    expect(rules('hole without pad')).toEqual(['drill to copper'])
  })

  it('test the via in the land as well as the land', () => {
    expect(kinds(of(packageOf(square(4), { viaPlacement: 'in pad' })), 1)).toEqual([
      'land, kept',
      'via pad, kept',
    ])
  })

  it('span the ball pitch between lands and the via pitch between vias, and both on the diagonal', () => {
    const fits = of(
      packageOf(square(4), { pitch: { x: um(800), y: um(650) }, viaPitch: { x: um(900), y: um(700) } }),
    )
    const spans = (layer: number): (readonly [string, number])[] =>
      fits
        .filter((fit) => fit.layer === layer && fit.innerPads === 'kept')
        .map(({ direction, span }) => [direction, Math.round(span * 1e7) / 10] as const)
    expect(spans(1)).toEqual([
      ['between columns', 800],
      ['between rows', 650],
      ['diagonal', 1030.8],
    ])
    expect(spans(3)).toEqual([
      ['between columns', 900],
      ['between rows', 700],
      ['diagonal', 1140.2],
    ])
  })

  it('let more through on the diagonal than straight, which is why only straight gaps bound a plan', () => {
    const fits = of(packageOf(square(4)))
    const straight = fits.filter(({ direction }) => direction !== 'diagonal')
    for (const fit of straight) {
      const diagonal = fits.find(
        (each) => each.direction === 'diagonal' && each.layer === fit.layer && each.obstacle === fit.obstacle,
      )
      expect(diagonal?.governing.clear).toBeGreaterThan(fit.governing.clear)
      expect(diagonal?.traces).toBeGreaterThanOrEqual(fit.traces)
    }
  })

  it('are tried with every class that has a signal ball here, and no other', () => {
    expect([...new Set(of(packageOf(square(4))).map((fit) => fit.netClass))]).toEqual(['single'])
    expect(of(packageOf(['gg', 'gg']))).toEqual([])
  })

  it('are none below the lands where no via is described', () => {
    const pack = packageOf(square(4))
    const { channels, plans } = escapePackage(boardOf(pack, { vias: [] }), pack)
    expect([...new Set(channels.map(({ layer }) => layer))]).toEqual([1])
    expect(plans.map(({ unescaped }) => unescaped.length)).toEqual([0, 0])
  })
})
