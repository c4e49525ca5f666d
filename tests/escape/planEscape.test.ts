import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Board } from '../../src/board/board.ts'
import { NO_WISHES } from '../../src/board/escapeWishes.ts'
import type { Package } from '../../src/board/packages.ts'
import { fitChannel } from '../../src/escape/channelFit.ts'
import type { EscapePlan } from '../../src/escape/escape.ts'
import { planEscape } from '../../src/escape/planEscape.ts'
import type { Route } from '../../src/routes/route.ts'
import { viaTravel } from '../../src/routes/viaTravel.ts'
import { missedRows } from '../helpers/compareTable.ts'
import {
  boardOf,
  copperStack,
  fabrication,
  netClass,
  netOf,
  packageOf,
  padsOf,
  pairOf,
  square,
  um,
  via,
} from './fixtures.ts'
import { planFaults } from './planChecker.ts'
import { publishedTables, rowsOf } from './publishedTable.ts'

const SEED = 20260305

const blindVias = (layers: number): Board['vias'] =>
  Array.from({ length: layers - 1 }, (_, index) =>
    via(`to ${index + 2}`, { kind: 'blind', lastLayer: index + 2 }),
  )

const routeOf = (plan: EscapePlan, ball: string): Route => {
  const route = plan.routes.find((each) => each.ball === ball)
  if (route === undefined) throw new RangeError(`${ball} does not escape`)
  return route
}

const layersUsed = (plan: EscapePlan): number => plan.layers.findLastIndex(({ escaped }) => escaped > 0) + 1

/** Rings that are wholly out after each layer, counted from the outside without a break. */
function freedAfter(plan: EscapePlan): number[] {
  const freed = new Set<number>()
  return plan.layers.map(({ ringsFreed }) => {
    for (const ring of ringsFreed) freed.add(ring)
    let outer = 0
    while (freed.has(outer + 1)) outer += 1
    return outer
  })
}

describe('planEscape against published counts', () => {
  it('frees two rows, two rows, then one a layer at least, where one trace passes each channel', () => {
    const pack = packageOf(square(16))
    const plan = planEscape(boardOf(pack), pack, 'through')
    const freed = freedAfter(plan)
    for (const [layer, rows] of [2, 4, 5, 6, 7, 8].entries())
      expect(freed[layer]).toBeGreaterThanOrEqual(rows)
    expect(plan.unescaped).toEqual([])
    expect(layersUsed(plan)).toBeLessThanOrEqual(6)
  })

  it('frees two rows on every layer at least with blind vias: eight rows on four layers', () => {
    const pack = packageOf(square(16))
    const plan = planEscape(boardOf(pack, { vias: blindVias(12) }), pack, 'blind')
    const freed = freedAfter(plan)
    for (const [layer, rows] of [2, 4, 6, 8].entries()) expect(freed[layer]).toBeGreaterThanOrEqual(rows)
    expect(layersUsed(plan)).toBeLessThanOrEqual(4)
  })

  // Practitioners' mailing list, 2008-03-28: eight rows with one trace between pads and vias need six layers. The rule
  // counts rows along a straight side, so it holds where the array is long.
  it('needs the six layers of the row rule for eight rows on each side of a long array, and four with blind vias', () => {
    const pack = packageOf(Array.from({ length: 16 }, () => 's'.repeat(60)))
    const board = boardOf(pack, { vias: [via('through'), ...blindVias(12)] })
    const [through, blind] = [planEscape(board, pack, 'through'), planEscape(board, pack, 'blind')]
    expect([through.unescaped.length, blind.unescaped.length]).toEqual([0, 0])
    expect([layersUsed(through), layersUsed(blind)]).toEqual([6, 4])
    expect(blind.atLeastLayers).toBe(2)
  })

  it('stays within the flow bound for one layer of a full array, and near it', () => {
    for (const row of rowsOf(publishedTables('layerCounts.json'), 'first layer of a full square array')) {
      const side = row.get('side')
      const pitch = { x: row.get('pitch'), y: row.get('pitch') }
      const gap = { outer: row.get('gap'), inner: row.get('gap') }
      const pack = packageOf(square(side), {
        pitch,
        viaPitch: pitch,
        landDiameter: row.get('pad'),
        maskOpening: row.get('pad'),
      })
      const board = boardOf(pack, {
        stackup: copperStack(1),
        vias: [],
        fabrication: fabrication({ traceGap: gap, traceToPad: gap, maskOpeningToTrace: 0 }),
        classes: [netClass('single', { neck: { width: row.get('width'), gap: null } })],
      })
      const rules = [
        { rule: 'trace to pad' as const, obstacleDiameter: row.get('pad'), clearance: row.get('gap') },
      ]
      const { governing, traces } = fitChannel({
        span: pitch.x,
        rules,
        width: row.get('width'),
        traceGap: row.get('gap'),
        tolerance: 0,
      })
      const outline = 4 * (side - 1)
      const real = outline * (1 + (governing.clear + row.get('gap')) / (row.get('width') + row.get('gap')))
      const whole = outline * (1 + traces)
      const compare = (column: string, actual: number): Parameters<typeof missedRows>[0][number] => ({
        label: row.source,
        actual,
        expected: row.get(column),
        tolerance: row.tolerance(column),
      })
      expect(missedRows([compare('bound', real), compare('boundInWholeTracks', whole)])).toBe('')
      const { routes } = planEscape(board, pack, 'through')
      expect(routes.length).toBeLessThanOrEqual(whole)
      // Rings one and two are out; only the gaps at the four corners cannot be used by straight traces.
      expect(routes.length).toBeGreaterThanOrEqual(whole - 4)
    }
  })

  it('needs no more layers than the row rule on full arrays of any size and channel', () => {
    const draft = fc.record({ size: fc.integer({ min: 1, max: 14 }), traces: fc.integer({ min: 1, max: 3 }) })
    fc.assert(
      fc.property(draft, ({ size, traces }) => {
        const pack = packageOf(square(size))
        // 800 um less 450 um pads: 1, 2 and 3 traces with gaps to pads of 50 um.
        const width = [um(100), um(60), um(40)][traces - 1] ?? um(40)
        const close = { outer: um(50), inner: um(50) }
        const board = boardOf(pack, {
          stackup: copperStack(8),
          vias: [via('through', { lastLayer: 8 }), ...blindVias(8)],
          fabrication: fabrication({ traceGap: close, traceToPad: close, drillToCopper: um(100) }),
          classes: [netClass('single', { neck: { width, gap: null } })],
        })
        const rows = Math.ceil(size / 2)
        const through = planEscape(board, pack, 'through')
        const blind = planEscape(board, pack, 'blind')
        const t = through.layers[1]?.tracesPerChannel ?? 0
        expect(t).toBeGreaterThanOrEqual(traces)
        for (const [layer, freed] of freedAfter(through).entries()) {
          expect(freed).toBeGreaterThanOrEqual(Math.min(rows, layer === 0 ? 1 + t : 2 + t + layer * t))
        }
        for (const [layer, freed] of freedAfter(blind).entries()) {
          expect(freed).toBeGreaterThanOrEqual(Math.min(rows, (layer + 1) * (1 + t)))
        }
      }),
      { seed: SEED, numRuns: 40 },
    )
  }, 30_000)
})

/**
 * As many balls as can leave a layer of lands by straight channels, found on its own: outer balls leave at once, each
 * other by one of `traces` places in a channel beside it on the nearest side, by augmenting over places.
 */
function mostThatLeave(drawing: readonly string[], traces: number): number {
  const size = drawing.length
  const places = new Map<string, string>()
  const waysOf = (row: number, column: number): string[] => {
    const depths = { top: row, bottom: size - 1 - row, left: column, right: size - 1 - column }
    const depth = Math.min(...Object.values(depths))
    return Object.entries(depths)
      .filter(([, each]) => each === depth)
      .flatMap(([side]) => {
        const line = side === 'top' || side === 'bottom' ? column : row
        return [line - 1, line].flatMap((channel) =>
          channel < 0 || channel > size - 2
            ? []
            : Array.from({ length: traces }, (_, n) => `${side} ${channel} ${n}`),
        )
      })
  }
  const seat = (ball: string, tried: Set<string>): boolean => {
    const [row = 0, column = 0] = ball.split(',').map(Number)
    return waysOf(row, column).some((place) => {
      if (tried.has(place)) return false
      tried.add(place)
      const holder = places.get(place)
      if (holder !== undefined && !seat(holder, tried)) return false
      places.set(place, ball)
      return true
    })
  }
  let count = 0
  for (const [row, text] of drawing.entries()) {
    for (const [column, letter] of Array.from(text).entries()) {
      if (letter !== 's') continue
      const outer = [row, column].some((place) => place === 0 || place === size - 1)
      if (outer || seat(`${row},${column}`, new Set())) count += 1
    }
  }
  return count
}

describe('planEscape among straight channels', () => {
  const letters = fc.array(fc.constantFrom('s', 's', 'u'), { minLength: 121, maxLength: 121 })
  const maps = fc.record({
    size: fc.integer({ min: 2, max: 11 }),
    letters,
    traces: fc.integer({ min: 0, max: 2 }),
  })
  const mapOf = ({ size, letters: all }: { size: number; letters: readonly string[] }): string[] =>
    square(size, (row, column) => all[row * 11 + column] ?? 's')
  const boardFor = (pack: Package, traces: number): Board => {
    const close = { outer: um(50), inner: um(50) }
    return boardOf(pack, {
      stackup: copperStack(1),
      vias: [],
      fabrication: fabrication({ traceGap: close, traceToPad: close }),
      // 300 um clear between lands of 400 um.
      classes: [
        netClass('single', { neck: { width: [um(310), um(200), um(120)][traces] ?? um(120), gap: null } }),
      ],
    })
  }

  it('gets out at least as many as any choice of straight channels can', () => {
    fc.assert(
      fc.property(maps, (draft) => {
        const drawing = mapOf(draft)
        const pack = packageOf(drawing)
        const { routes, unescaped } = planEscape(boardFor(pack, draft.traces), pack, 'through')
        expect(routes.length).toBeGreaterThanOrEqual(mostThatLeave(drawing, draft.traces))
        expect(routes.length + unescaped.length).toBe(drawing.join('').split('s').length - 1)
      }),
      { seed: SEED, numRuns: 200 },
    )
  })

  it('lets nets asked for first go first: none is refused for the sake of another', () => {
    fc.assert(
      fc.property(maps, fc.integer({ min: 1, max: 30 }), (draft, share) => {
        const pack = packageOf(mapOf(draft))
        const board = boardFor(pack, draft.traces)
        const names = pack.balls.filter(({ use }) => use === 'signal').map(({ name }) => name)
        const first = names.filter((_, index) => (index * 7) % 30 < share)
        const { routes } = planEscape(
          board,
          { ...pack, escape: { ...NO_WISHES, priority: first.map((net) => [net]) } },
          'through',
        )
        const rest = pack.balls.map((ball) =>
          first.includes(ball.name) ? ball : { ...ball, use: 'unused' as const },
        )
        const alone = planEscape(board, { ...pack, balls: rest }, 'through')
        expect(routes.filter(({ ball }) => first.includes(ball)).length).toBe(alone.routes.length)
        expect(routes.length).toBe(planEscape(board, pack, 'through').routes.length)
      }),
      { seed: SEED, numRuns: 60 },
    )
  })

  it('gives the same counts for the same map in another order, mirrored or turned', () => {
    fc.assert(
      fc.property(maps, (draft) => {
        const pack = packageOf(mapOf(draft))
        const size = draft.size
        const turned = (place: (row: number, column: number) => [number, number]): Package => ({
          ...pack,
          balls: pack.balls.map((ball) => {
            const [row, column] = place(ball.row, ball.column)
            const x = (column - (size - 1) / 2) * pack.pitch.x
            return { ...ball, row, column, x, y: ((size - 1) / 2 - row) * pack.pitch.y }
          }),
        })
        const counts = (each: Package): number =>
          planEscape(boardFor(pack, draft.traces), each, 'through').routes.length
        const expected = counts(pack)
        expect(counts({ ...pack, balls: pack.balls.toReversed() })).toEqual(expected)
        expect(counts(turned((row, column) => [column, row]))).toEqual(expected)
        expect(counts(turned((row, column) => [size - 1 - row, column]))).toEqual(expected)
      }),
      { seed: SEED, numRuns: 60 },
    )
  })

  it('still lets a fine trace through channels that are full for wide ones', () => {
    // Seven wide balls for the six channels 1|2 to 6|7, then a fine one behind them: 180 + 100 + 20 of 300 um.
    const wide = ['1,2', '1,3', '1,4', '1,5', '1,6', '2,3', '2,4']
    const drawing = square(9, (row, column) => ([...wide, '3,4'].includes(`${row},${column}`) ? 's' : 'u'))
    const pack = packageOf(drawing)
    const close = { outer: um(50), inner: um(50) }
    const board = boardOf(pack, {
      stackup: copperStack(1),
      fabrication: fabrication({ traceToPad: close }),
      classes: [
        netClass('wide', { neck: { width: um(180), gap: null } }),
        netClass('fine', { neck: { width: um(20), gap: null } }),
      ],
      nets: [...wide.map((name) => netOf(name, 'wide')), netOf('3,4', 'fine')],
    })
    const plan = planEscape(board, pack, 'through')
    expect(plan.unescaped).toEqual([])
    expect(routeOf(plan, '3,4').exitLayer).toBe(1)
    expect(planFaults(board, pack, plan, () => [])).toEqual([])
  })

  it('says the same every time', () => {
    const pack = packageOf(square(9, (row, column) => ((row * 5 + column) % 4 === 0 ? 'p' : 's')))
    const board = boardOf(pack)
    expect(planEscape(board, pack, 'through')).toEqual(planEscape(board, pack, 'through'))
  })
})

describe('planEscape and what stands in the way', () => {
  it('takes the outer ring straight out on the layer of the lands, without a via', () => {
    const pack = packageOf(square(5))
    const plan = planEscape(boardOf(pack), pack, 'through')
    const outer = plan.routes.filter(({ ring }) => ring === 1)
    expect(outer).toHaveLength(16)
    for (const route of outer) {
      expect(route).toMatchObject({ exitLayer: 1, via: null, viaDepth: 0, stubLength: 0, dogBoneLength: 0 })
      expect(route.path).toHaveLength(2)
      expect(route.neckLength).toBeCloseTo(um(400), 12)
    }
  })

  it('counts vias of power and ground on every layer, of signals below their land, and none where a ball is missing', () => {
    const pack = packageOf(['ssss', 'sg.s', 'spss', 'ssss'])
    const plan = planEscape(boardOf(pack, { stackup: copperStack(3) }), pack, 'through')
    expect(routeOf(plan, '2,2').exitLayer).toBe(1)
    expect(plan.layers.map(({ obstacles }) => obstacles)).toEqual([2, 2, 2])
  })

  it('is blocked by a fence of ground vias where no trace passes, and freed by one missing ball', () => {
    // 700 um pads at 800 um: nothing passes between two, but a missing one leaves 900 um.
    const fence = (gapAt: number | null): string[] =>
      square(7, (row, column) => {
        const ring = Math.min(row, column, 6 - row, 6 - column)
        if (row === 0 && column === gapAt) return '.'
        return ring === 0 ? 'g' : row === 3 && column === 3 ? 's' : row === 1 && column === gapAt ? 's' : '.'
      })
    const plan = (gapAt: number | null): EscapePlan => {
      const pack = packageOf(fence(gapAt), {
        landDiameter: um(700),
        maskOpening: um(700),
        viaPlacement: 'in pad',
      })
      const vias = [via('through', { lastLayer: 2, padDiameters: padsOf(2, 700) })]
      return planEscape(boardOf(pack, { stackup: copperStack(2), vias }), pack, 'through')
    }
    expect(plan(null).routes).toEqual([])
    expect(plan(null).unescaped[0]?.reason).toMatch(/L2.*takes 0 traces/)
    expect(plan(3).routes.map(({ ball }) => ball)).toContain('1,3')
  })

  it('opens a wide lane where a whole column is missing: five traces at once, and no sixth', () => {
    // Clear between columns 2 and 4: 1600 − 400 − 2 · 100 = 1000 um; five of 120 um with 100 um gaps.
    const drawing = square(14, (row, column) => {
      if (column === 6) return '.'
      const beside = column === 5 || column === 7
      return beside && row > 0 && row < 6 ? 's' : 'u'
    })
    const pack = packageOf(drawing)
    const run = (width: number): Route[] => {
      const board = boardOf(pack, {
        stackup: copperStack(1),
        classes: [netClass('single', { neck: { width: um(width), gap: null } })],
      })
      const plan = planEscape(board, pack, 'through')
      expect(planFaults(board, pack, plan, () => [])).toEqual([])
      return plan.routes.filter(({ path }) => Math.abs((path.at(-1)?.x ?? 1) + um(400)) < um(700))
    }
    expect(run(120)).toHaveLength(5)
    expect(run(121)).toHaveLength(4)
  })

  it('lets more through where pads of unconnected vias are removed', () => {
    const pack = packageOf(square(10))
    const run = (pads: 'kept' | 'removed'): EscapePlan => {
      const vias = [
        via('through', { lastLayer: 4, padDiameters: padsOf(4, 560), unconnectedInnerPads: pads }),
      ]
      return planEscape(boardOf(pack, { stackup: copperStack(4), vias }), pack, 'through')
    }
    expect(run('removed').layers[2]?.tracesPerChannel).toBe(2)
    expect(run('kept').layers[2]?.tracesPerChannel).toBe(0)
    expect(run('removed').routes.length).toBeGreaterThan(run('kept').routes.length)
  })

  it('keeps a trace out of the channel in which a dog-bone via of a neighbour stands', () => {
    const pack = packageOf(['ssssss', 'ssgsss', 'ssssss', 'ssssss', 'ssssss', 'ssssss'])
    const board = boardOf(pack, { stackup: copperStack(3) })
    const { path } = routeOf(planEscape(board, pack, 'through'), '1,1')
    // The via of 1,2 stands up and left of it, between columns 1 and 2.
    expect(path.at(-1)?.x).toBeLessThan(um(-1200))
  })

  it('keeps traces out of the wider bore of holes that are drilled back', () => {
    const pack = packageOf(square(12))
    const run = (bore: number | null): EscapePlan => {
      const backdrill =
        bore === null ? null : { diameter: um(bore), from: 'bottom' as const, residualStub: um(100) }
      const vias = [via('through', { lastLayer: 6, unconnectedInnerPads: 'removed', backdrill })]
      return planEscape(boardOf(pack, { stackup: copperStack(6), vias }), pack, 'through')
    }
    const bores = (plan: EscapePlan, layer: number): number[] =>
      plan.layers[layer - 1]?.standing.map(({ diameter }) => diameter) ?? []
    const [plain, wide] = [run(null), run(480)]
    expect(wide.check.faults).toEqual([])
    // Nets that left on layer 2 are drilled back on layer 3, so 480 um stand there in the place of 200 um.
    const left = wide.routes.filter(({ exitLayer }) => exitLayer === 2).length
    expect(bores(wide, 3).filter((diameter) => Math.abs(diameter - um(480)) < 1e-9)).toHaveLength(left)
    expect(bores(plain, 3).filter((diameter) => Math.abs(diameter - um(480)) < 1e-9)).toHaveLength(0)
    expect(wide.routes.length).toBeLessThanOrEqual(plain.routes.length)
    const passing = (plan: EscapePlan): number => plan.routes.filter(({ exitLayer }) => exitLayer >= 3).length
    expect(passing(run(700))).toBeLessThanOrEqual(passing(plain))
  })

  it('leaves the layers below free where blind vias of power end on their plane', () => {
    const pack = packageOf(square(12, (row, column) => ((row + column) % 2 === 0 ? 'g' : 's')))
    const run = (planes: readonly number[]): EscapePlan => {
      const vias = blindVias(6).map((each) => ({ ...each, padDiameters: padsOf(6, 620) }))
      return planEscape(boardOf(pack, { stackup: copperStack(6, planes), vias }), pack, 'blind')
    }
    const near = run([2])
    const far = run([6])
    expect(near.layers.map(({ obstacles }) => obstacles)[1]).toBeLessThan(
      far.layers.map(({ obstacles }) => obstacles)[1] ?? 0,
    )
    const third = (plan: EscapePlan): number =>
      plan.layers.filter(({ layer }) => layer <= 3).reduce((sum, { escaped }) => sum + escaped, 0)
    expect(third(near)).toBeGreaterThan(third(far))
  })
})

describe('planEscape and layers', () => {
  it('uses only layers that carry signals, from the package’s side', () => {
    const pack = packageOf(square(10), {
      placement: { origin: { x: 0, y: 0 }, side: 'bottom', rotationDegrees: 0 },
    })
    const board = boardOf(pack, { stackup: copperStack(6, [2, 5]) })
    const plan = planEscape(board, pack, 'through')
    expect(plan.layers.map(({ layer }) => layer)).toEqual([6, 4, 3, 1])
    expect(
      plan.routes.filter(({ via: hole }) => hole === null).every(({ exitLayer }) => exitLayer === 6),
    ).toBe(true)
  })

  it('takes a net to the layer it is asked for on, and frees its place elsewhere', () => {
    const pack = packageOf(square(6))
    const nets = pack.balls.map(({ net }) =>
      netOf(net ?? '', 'single', net === '0,2' ? { exitLayer: 3 } : {}),
    )
    const plan = planEscape(boardOf(pack, { nets, stackup: copperStack(4) }), pack, 'through')
    expect(routeOf(plan, '0,2')).toMatchObject({ exitLayer: 3, via: 'through' })
    expect(plan.unescaped).toEqual([])
  })

  it.each([
    [2, 'it is to leave on L2, which carries no signals out'],
    [9, 'it is to leave on layer 9, which carries no signals out'],
  ])('says why a net cannot leave on layer %d', (exitLayer, reason) => {
    const pack = packageOf(['s'])
    const board = boardOf(pack, {
      nets: [netOf('0,0', 'single', { exitLayer })],
      stackup: copperStack(3, [2]),
    })
    expect(planEscape(board, pack, 'through').unescaped).toEqual([
      { ball: '0,0', net: '0,0', ring: 1, reason },
    ])
  })

  it('says so where no via reaches the layer asked for, or any layer', () => {
    const pack = packageOf(['s'])
    const board = boardOf(pack, {
      nets: [netOf('0,0', 'single', { exitLayer: 3 })],
      stackup: copperStack(3),
      vias: [],
    })
    const [asked] = planEscape(board, pack, 'through').unescaped
    expect(asked?.reason).toBe('it is to leave on L3, which no described through via reaches')
    const plane = boardOf(pack, { stackup: copperStack(3, [1]), vias: [] })
    const plan = planEscape(plane, pack, 'blind')
    expect(plan.unescaped[0]?.reason).toContain('the layer of its land carries no signals')
    expect(plan.method).toContain('no described via reaches L2, L3')
  })

  it('drills one chain for each layer, and measures depth and stub along it', () => {
    const pack = packageOf(square(16))
    const vias = [
      via('micro 1', {
        kind: 'microvia',
        lastLayer: 2,
        padDiameters: padsOf(2, 450),
        arrangement: 'staggered',
      }),
      via('micro 2', {
        kind: 'microvia',
        firstLayer: 2,
        lastLayer: 3,
        padDiameters: padsOf(2, 450),
        arrangement: 'staggered',
      }),
      via('through', { lastLayer: 5 }),
    ]
    const board = boardOf(pack, { vias, stackup: copperStack(5) })
    const plan = planEscape(board, pack, 'blind')
    expect(new Set(plan.routes.map(({ exitLayer, via: hole }) => `${exitLayer} ${hole}`))).toEqual(
      new Set(['1 null', '2 micro 1', '3 micro 1 + micro 2']),
    )
    const [through] = board.vias.slice(-1)
    if (through === undefined) throw new RangeError('the board has three vias')
    const third = plan.routes.find(({ exitLayer }) => exitLayer === 3)
    expect(third?.viaDepth).toBeCloseTo(viaTravel(board.stackup, through, 1, 3).depth, 12)
    expect(third?.stubLength).toBe(0)
    expect(third?.dogBoneLength).toBeCloseTo(um(800) / Math.SQRT2, 12)
    const drilled = planEscape(board, pack, 'through').routes.find(({ exitLayer }) => exitLayer === 3)
    expect(drilled?.stubLength).toBeCloseTo(viaTravel(board.stackup, through, 1, 3).stub, 12)
    expect(drilled?.stubLength).toBeGreaterThan(um(200))
    expect(plan.method).toContain('no blind via ends on L4, L5: through vias go there')
  })
})

describe('planEscape and pairs', () => {
  const pairClass = netClass('pair', { structure: 'pair', neck: { width: um(60), gap: um(60) } })
  const roomy = fabrication({
    traceGap: { outer: um(80), inner: um(80) },
    traceToPad: { outer: um(60), inner: um(60) },
    drillToCopper: um(100),
  })

  it('runs the two of a pair side by side with their gap where the channel takes both', () => {
    const pack = packageOf(['uuuuuu', 'uussuu', 'uuuuuu', 'uuuuuu', 'uuuuuu'])
    const board = boardOf(pack, { classes: [pairClass], nets: pairOf('1,2', '1,3'), fabrication: roomy })
    const plan = planEscape(board, pack, 'through')
    const [one, other] = plan.routes
    expect(plan.routes.map(({ gap, exitLayer }) => [gap, exitLayer])).toEqual([
      [um(60), 1],
      [um(60), 1],
    ])
    const distance = Math.abs((one?.path.at(-1)?.x ?? NaN) - (other?.path.at(-1)?.x ?? NaN))
    expect(distance).toBeCloseTo(um(120), 12)
    expect(planFaults(board, pack, plan, () => [])).toEqual([])
  })

  it('parts them by two channels, still on one layer, where it takes only one', () => {
    const pack = packageOf(['uuuuuu', 'uussuu', 'uuuuuu', 'uuuuuu', 'uuuuuu'])
    const wide = netClass('pair', { structure: 'pair', neck: { width: um(100), gap: um(120) } })
    const board = boardOf(pack, { classes: [wide], nets: pairOf('1,2', '1,3'), fabrication: roomy })
    const { routes } = planEscape(board, pack, 'through')
    expect(routes.map(({ gap, exitLayer, width }) => [gap, exitLayer, width])).toEqual([
      [null, 1, um(100)],
      [null, 1, um(100)],
    ])
  })

  it('takes both to the next layer rather than one of them', () => {
    // 1,1 and its partner 2,2 with every channel of the second taken by others.
    const pack = packageOf(square(8))
    const names = pack.balls.map(({ name }) => name)
    const pairs = [
      ['1,3', '2,3'],
      ['2,4', '3,4'],
    ] as const
    const paired = new Set<string>(pairs.flat())
    const nets = [
      ...names.filter((name) => !paired.has(name)).map((name) => netOf(name)),
      ...pairs.flatMap(([one, other]) => pairOf(one, other)),
    ]
    const board = boardOf(pack, { nets })
    const plan = planEscape(board, pack, 'through')
    for (const [one, other] of pairs) {
      expect(routeOf(plan, one).exitLayer).toBe(routeOf(plan, other).exitLayer)
    }
    expect(planFaults(board, pack, plan, () => ['through'])).toEqual([])
  })

  it('parts a pair only where it would not get out whole on any layer', () => {
    const pack = packageOf(['ss', 'ss', 'ss'])
    const giant = { ...pack, landDiameter: um(900), maskOpening: um(900) }
    const board = boardOf(giant, {
      nets: [...pairOf('0,0', '1,0'), netOf('0,1'), netOf('1,1'), netOf('2,0'), netOf('2,1')],
    })
    expect(planEscape(board, giant, 'through').unescaped.map(({ ball }) => ball)).toContain('0,0')
    const alone = packageOf(['sss', 'sss', 'sss'], { landDiameter: um(650), maskOpening: um(650) })
    const closed = boardOf(alone, {
      stackup: copperStack(1),
      nets: [
        ...pairOf('0,0', '1,1'),
        ...['0,1', '0,2', '1,0', '1,2', '2,0', '2,1', '2,2'].map((name) => netOf(name)),
      ],
    })
    const plan = planEscape(closed, alone, 'through')
    expect(plan.unescaped.map(({ ball }) => ball)).toEqual(['1,1'])
    expect(routeOf(plan, '0,0').gap).toBeNull()
  })

  it('gives a neck the widest trace that its channel takes where the class gives none', () => {
    const pack = packageOf(square(8))
    const board = boardOf(pack, { classes: [netClass('single', { neck: { width: null, gap: null } })] })
    const plan = planEscape(board, pack, 'through')
    // Lands: 800 − 400 − 2 · 100; vias: 800 − 450 − 2 · 100.
    expect(routeOf(plan, '1,3').width).toBeCloseTo(um(200), 12)
    expect(plan.routes.find(({ exitLayer }) => exitLayer === 2)?.width).toBeCloseTo(um(150), 12)
    expect(planFaults(board, pack, plan, () => ['through'])).toEqual([])
  })
})

describe('planEscape and hopeless boards', () => {
  const plans = (board: Board, pack: Package): EscapePlan[] => [
    planEscape(board, pack, 'through'),
    planEscape(board, pack, 'blind'),
  ]

  it.each([
    ['no ball at all', ['...', '...']],
    ['no signal', ['ggg', 'gpg', 'ggu']],
  ])('has nothing to do with %s', (_what, drawing) => {
    const pack = packageOf(drawing)
    for (const plan of plans(boardOf(pack), pack)) {
      expect(plan.routes).toEqual([])
      expect(plan.unescaped).toEqual([])
      expect(plan.layers.every(({ escaped, longestNeck }) => escaped === 0 && longestNeck === null)).toBe(
        true,
      )
    }
  })

  it.each([
    ['one ball', ['s']],
    ['one row', ['sssssss']],
    ['one column', ['s', 's', 's', 's']],
    ['two rows', ['sssss', 'sssss']],
  ])('gets %s out at once', (_what, drawing) => {
    const pack = packageOf(drawing)
    for (const plan of plans(boardOf(pack), pack)) {
      expect(plan.unescaped).toEqual([])
      expect(layersUsed(plan)).toBe(1)
    }
  })

  it('says by how much every channel is too narrow', () => {
    const pack = packageOf(square(6), { landDiameter: um(520), maskOpening: um(520), viaPlacement: 'in pad' })
    const vias = [via('through', { lastLayer: 2, padDiameters: padsOf(2, 520) })]
    const board = boardOf(pack, { stackup: copperStack(2), vias })
    const plan = planEscape(board, pack, 'through')
    // Two rings leave straight, one on each layer; four balls in the middle stay.
    expect(plan.unescaped.map(({ ball }) => ball)).toEqual(['2,2', '2,3', '3,2', '3,3'])
    expect(plan.unescaped[0]?.reason).toBe(
      'L2, the last of 2 layers left to it, lets out 12 of 16 that wait, and no layout more than 12: a cut of 12 gates (1,1–1,2, 1,2–1,3 and on) takes 0 traces of 0.100 mm at 0.100 mm; one more passes the widest of them with traces of 0.080 mm, or with pads 0.020 mm smaller',
    )
  })

  it('says that channels are full, and with what', () => {
    const pack = packageOf(square(12))
    const board = boardOf(pack, { stackup: copperStack(1) })
    const [first] = planEscape(board, pack, 'through').unescaped
    expect(first?.reason).toMatch(
      /^L1 lets out 84 of 144 that wait, and no layout more than 88: a cut of 44 gates .* takes 44 traces of 0\.100 mm/,
    )
  })

  it('lets nothing out between lands that touch each other, nor by vias that do', () => {
    const pads = [via('through', { lastLayer: 4, padDiameters: padsOf(4, 1000) })]
    const touchingLands = packageOf(square(5), { landDiameter: um(900), maskOpening: um(950) })
    for (const plan of plans(boardOf(touchingLands, { stackup: copperStack(4) }), touchingLands)) {
      expect(plan.routes).toEqual([])
      expect(plan.unescaped).toHaveLength(25)
      expect(plan.unescaped[0]?.reason).toBe('lands of 0.900 mm touch each other 0.800 mm apart')
    }
    const pack = packageOf(square(9))
    for (const plan of plans(boardOf(pack, { stackup: copperStack(4), vias: pads }), pack)) {
      expect(plan.routes.every(({ exitLayer }) => exitLayer === 1)).toBe(true)
      expect(plan.unescaped.length).toBeGreaterThan(0)
      expect(plan.method).toContain(
        'left out because their pads would touch each other or the lands: through',
      )
    }
    const [first] = planEscape(
      boardOf(pack, { stackup: copperStack(4, [1]), vias: pads }),
      pack,
      'through',
    ).unescaped
    expect(first?.reason).toContain('its pads of 1.000 mm touch each other 0.800 mm apart')
  })

  it('plans a package whose signals have no class or net as nothing', () => {
    const pack = packageOf(square(3))
    expect(planEscape(boardOf(pack, { nets: [], classes: [] }), pack, 'through').routes).toEqual([])
  })

  it('answers for 100 × 100 balls in bounded time', () => {
    const pack = packageOf(square(100))
    const board = boardOf(pack, { stackup: copperStack(4) })
    const plan = planEscape(board, pack, 'through')
    expect(plan.routes.length + plan.unescaped.length).toBe(10_000)
  }, 20_000)
})
