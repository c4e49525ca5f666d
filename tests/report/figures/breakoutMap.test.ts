import { describe, expect, it } from 'vitest'
import type { ExitSide } from '../../../src/board/escapeWishes.ts'
import type { EscapePlan, Gate, LayerPlan } from '../../../src/escape/escape.ts'
import { breakoutMap } from '../../../src/report/figures/breakoutMap.ts'
import { routeAnchor } from '../../../src/report/figures/breakoutRoutes.ts'
import type { BreakoutMapSpec } from '../../../src/report/figures/breakoutView.ts'
import type { Point } from '../../../src/units/quantity.ts'
import { board, memory, processor } from '../fixtures/board.ts'
import { escapes } from '../fixtures/escapes.ts'
import { numberOf, tagsOf, textOf } from '../markup.ts'
import type { Tag } from '../markup.ts'

/** Two decimals of a user unit, on both ends of a length. */
const ROUNDING = 0.011

function some<T>(value: T | undefined | null): T {
  if (value === undefined || value === null) throw new Error('the sample lacks what this test looks at')
  return value
}

const plan: EscapePlan = some(escapes[0]?.plans[0])

function layerOf(number: number, of = plan): LayerPlan {
  return some(of.layers.find(({ layer }) => layer === number))
}

function specOf(number: number, change: Partial<BreakoutMapSpec> = {}): BreakoutMapSpec {
  return {
    id: 'a',
    package: processor,
    plan,
    layer: layerOf(number, change.plan ?? plan),
    mains: [],
    layerName: (layer) => `L${layer}`,
    partnerOf: (net) => board.nets.find((each) => each.name === net)?.partner ?? null,
    unit: 'mm',
    ...change,
  }
}

/** Corners of a path, broken at each new start. */
function corners(tag: Tag | undefined): Point[] {
  return [...(tag?.attributes.get('d') ?? '').matchAll(/[ML]?(-?[\d.]+)[ ,](-?[\d.]+)/g)].map((match) => ({
    x: Number(match[1]),
    y: Number(match[2]),
  }))
}

/** Markup of the group with an id or class. */
function groupOf(svg: string, mark: string): string {
  const start = svg.indexOf(mark)
  return start < 0 ? '' : svg.slice(start, svg.indexOf('</g>', start))
}

function routeOf(svg: string, ball: string): Tag[] {
  return tagsOf(`<g ${groupOf(svg, `id="${routeAnchor('a', ball)}"`)}`)
}

describe('the breakout map', () => {
  it.each([1, 3, 8])('draws what stands on layer %i, every place and width at one scale', (number) => {
    const svg = breakoutMap(specOf(number))
    const routes = plan.routes.filter(({ exitLayer }) => exitLayer === number)
    const [first] = routes
    const place = (point: Point): Point => {
      const [start, end] = [
        corners(routeOf(svg, some(first).ball).find(({ name }) => name === 'path')),
        some(first).path,
      ]
      const [a, b] = [some(start[0]), some(start.at(-1))]
      const [p, q] = [some(end[0]), some(end.at(-1))]
      const scale = Math.hypot(b.x - a.x, b.y - a.y) / Math.hypot(q.x - p.x, q.y - p.y)
      return { x: a.x + (point.x - p.x) * scale, y: a.y - (point.y - p.y) * scale }
    }
    const perMetre = place({ x: 1, y: 0 }).x - place({ x: 0, y: 0 }).x
    // The scale is read off one route: its error grows with the distance from there.
    const near = 0.15
    for (const route of routes) {
      const path = some(routeOf(svg, route.ball).find(({ name }) => name === 'path'))
      expect(corners(path)).toHaveLength(route.path.length)
      corners(path).forEach((corner, index) => {
        const wanted = place(some(route.path[index]))
        expect(Math.hypot(corner.x - wanted.x, corner.y - wanted.y)).toBeLessThan(near)
      })
      expect(Math.abs(numberOf(path, 'stroke-width') - route.width * perMetre)).toBeLessThan(2 * ROUNDING)
      expect(path.attributes.get('stroke-linejoin')).toBe('round')
    }
    const drawn = tagsOf(svg.slice(0, svg.indexOf('to scale</text>'))).filter(({ name }) => name === 'circle')
    for (const { at, diameter } of layerOf(number).standing) {
      const wanted = place(at)
      const found = drawn.filter(
        (tag) =>
          Math.hypot(numberOf(tag, 'cx') - wanted.x, numberOf(tag, 'cy') - wanted.y) < near &&
          Math.abs(2 * numberOf(tag, 'r') - diameter * perMetre) < 4 * ROUNDING,
      )
      expect(found).toHaveLength(1)
    }
  })

  it('keeps the ground free round each obstacle that the rules ask for', () => {
    const svg = breakoutMap(specOf(3))
    const [{ reach, diameter }] = [some(layerOf(3).standing[0])]
    const [ground] = tagsOf(`<g ${groupOf(svg, 'class="clearance"')}`).filter(({ name }) => name === 'path')
    const round = some(
      routeOf(svg, some(plan.routes.find(({ exitLayer }) => exitLayer === 3)).ball).find(
        ({ name }) => name === 'circle',
      ),
    )
    const ratio = numberOf(ground, 'stroke-width') / (2 * numberOf(round, 'r'))
    expect(ratio).toBeCloseTo((2 * reach) / diameter, 2)
    expect(corners(ground)).toHaveLength(2 * layerOf(3).standing.length)
  })

  it('names every net in its group with ball, width and neck, under an id that a link can lead to', () => {
    const svg = breakoutMap(specOf(1))
    for (const { net, ball, exitLayer } of plan.routes) {
      const group = groupOf(svg, `id="${routeAnchor('a', ball)}"`)
      expect(group.includes(`${net}, ball ${ball}: leaves on L1`)).toBe(exitLayer === 1)
    }
    const pair = some(plan.routes.find(({ gap, exitLayer }) => gap !== null && exitLayer === 1))
    expect(groupOf(svg, `id="${routeAnchor('a', pair.ball)}"`)).toContain(
      '0.080 mm wide, neck 0.800 mm, 0.400 mm of it uncoupled',
    )
  })

  it('writes the name of each ball at the end of its trace, bold where the net has priority', () => {
    const svg = breakoutMap(specOf(1))
    const names = [...svg.matchAll(/<text[^>]*>([A-Z]+\d+)<\/text>/g)].map((match) => match[1])
    const leaving = plan.routes.filter(({ exitLayer }) => exitLayer === 1).map(({ ball }) => ball)
    expect(new Set(names)).toEqual(new Set(leaving))
    expect(names).toHaveLength(leaving.length)
    const bold = [...svg.matchAll(/<text[^>]*font-weight="bold"[^>]*>([A-Z]+\d+)</g)].map((match) => match[1])
    const first = processor.balls.filter(({ net }) => processor.escape.priority.flat().includes(net ?? ''))
    expect(new Set(bold)).toEqual(new Set(first.map(({ name }) => name)))
  })

  it('tells the layer on which every other net leaves by its number, and marks balls without a way out', () => {
    const svg = breakoutMap(specOf(3))
    const body = svg.slice(0, svg.indexOf('to scale</text>'))
    const later = plan.routes.filter(({ exitLayer }) => exitLayer === 8)
    const standing = new Set(layerOf(3).standing.map(({ ball }) => ball))
    const numbers = [
      ...body.matchAll(/<g font-size="[\d.]+" text-anchor="middle" fill="#545c63">(.*?)<\/g>/g),
    ]
    expect((numbers[0]?.[1] ?? '').match(/>8</g)).toHaveLength(
      later.filter(({ ball }) => standing.has(ball)).length,
    )
    expect(textOf(svg)).toContain(`no way out on any layer (${plan.unescaped.length})`)
    const crosses = tagsOf(`<g ${groupOf(body, 'class="inside"')}`).filter(({ name }) => name === 'path')
    expect(crosses).toHaveLength(plan.unescaped.length)
  })

  it('draws the dog-bones on the layer of the lands alone, as wide as they are', () => {
    const [bones] = tagsOf(`<g ${groupOf(breakoutMap(specOf(1)), 'class="dog-bones"')}`).filter(
      ({ name }) => name === 'path',
    )
    expect(corners(bones)).toHaveLength(2 * plan.dogBones.length)
    const [from, to] = corners(bones)
    const length = Math.hypot(some(to).x - some(from).x, some(to).y - some(from).y)
    const ratio = some(plan.dogBones[0]).width / Math.hypot(0.4e-3, 0.4e-3)
    expect(numberOf(bones, 'stroke-width') / length).toBeCloseTo(ratio, 2)
    expect(breakoutMap(specOf(3))).not.toContain('dog-bone')
  })

  it('joins the ends of a pair that leaves side by side, and no others', () => {
    const ties = (spec: BreakoutMapSpec): number =>
      tagsOf(`<g ${groupOf(breakoutMap(spec), 'class="ties"')}`).filter(({ name }) => name === 'path').length
    const [one, other] = [some(plan.routes[0]), some(plan.routes[1])]
    const beside = {
      ...plan,
      routes: [one, { ...other, path: one.path.map(({ x, y }) => ({ x: x + 0.17e-3, y })) }],
    }
    const apart = {
      ...plan,
      routes: [one, { ...other, path: one.path.map(({ x, y }) => ({ x: x + 3e-3, y })) }],
    }
    expect([one.net, other.net]).toEqual(['PCIE_PORT0_P', 'PCIE_PORT0_N'])
    expect(ties(specOf(1, { plan: beside }))).toBe(1)
    expect(ties(specOf(1, { plan: apart }))).toBe(0)
    const between = {
      ...other,
      net: 'X',
      ball: 'A4',
      path: one.path.map(({ x, y }) => ({ x: x + 0.1e-3, y })),
    }
    expect(ties(specOf(1, { plan: { ...beside, routes: [...beside.routes, between] } }))).toBe(0)
    expect(ties(specOf(1, { plan: beside, partnerOf: () => null }))).toBe(0)
  })

  it('hatches keep-outs of the layer, and names them', () => {
    expect(breakoutMap(specOf(3))).toContain('keep-out: reference clock')
    expect(breakoutMap(specOf(8))).not.toContain('keep-out')
  })

  it('serves a package of vias in pads', () => {
    const blind = some(escapes[1]?.plans[1])
    const svg = breakoutMap(specOf(3, { package: memory, plan: blind, layer: layerOf(3, blind) }))
    expect(svg).toContain('Breakout of U2 on L3')
  })
})

describe('the limiting cut in the map', () => {
  const [left, right] = [
    { x: -0.4e-3, y: 5.6e-3 },
    { x: 0.4e-3, y: 5.6e-3 },
  ]
  const gate: Gate = { from: left, to: right, balls: ['B8', 'B9'], clear: 0.25e-3, traces: 1 }
  const through = {
    ...some(plan.routes[0]),
    ball: 'E8',
    exitLayer: 3,
    path: [
      { x: 0, y: 0 },
      { x: 0, y: 7e-3 },
    ],
  }
  const withCut = (cut: readonly Gate[], routes = [through], escaped = 1): string => {
    const bound = { waiting: 3, escaped, atMost: 1, width: 95e-6, gap: 80e-6, cut }
    const layer = { ...layerOf(3), escaped, bound }
    return breakoutMap(specOf(3, { plan: { ...plan, routes }, layer }))
  }

  it('has a bar for each gate, with how many of its traces are taken', () => {
    const svg = withCut([gate])
    expect(svg).toContain('between B8 and B9: 1 of 1 traces, 0.250 mm clear')
    expect(textOf(svg)).toContain('limiting cut, 1 of 1 traces taken: full gates (1)')
    const [bar] = tagsOf(`<g ${groupOf(svg, 'class="cut"')}`).filter(({ name }) => name === 'path')
    const [from, to] = corners(bar)
    expect(Math.abs(some(from).y - some(to).y)).toBeLessThan(ROUNDING)
  })

  it('is hollow at a gate with room, with a count where several traces pass', () => {
    const bars = (svg: string): number =>
      tagsOf(`<g ${groupOf(svg, 'class="cut"')}`).filter(({ name }) => name === 'path').length
    expect([bars(withCut([gate])), bars(withCut([gate], []))]).toEqual([1, 2])
    expect(textOf(withCut([gate], []))).toContain('limiting cut, 0 of 1 traces taken: gates with room (1)')
    expect(withCut([{ ...gate, traces: 2 }])).toContain('>1 of 2<')
    expect(withCut([gate], [])).not.toContain('>0 of 1<')
  })

  it('does not count a trace that begins at the gate or passes beside it', () => {
    expect(withCut([gate], [{ ...through, ball: 'B8' }])).toContain('B9: 0 of 1 traces')
    const beside = {
      ...through,
      path: [
        { x: 1e-3, y: 0 },
        { x: 1e-3, y: 7e-3 },
      ],
    }
    expect(withCut([gate], [beside])).toContain('B9: 0 of 1 traces')
  })

  it('tells closed ways from open ones', () => {
    expect(textOf(withCut([{ ...gate, traces: 0 }]))).toContain(
      'limiting cut, no trace passes: closed ways (1)',
    )
    expect(textOf(withCut([gate, { ...gate, traces: 0 }]))).toContain('closed ways (1)')
  })

  it('is not drawn where all that waited are out', () => {
    expect(withCut([gate], [through], 3)).not.toContain('limiting cut')
  })
})

describe('a map of a large package', () => {
  const side = 50
  const pitch = 0.8e-3
  const balls = Array.from({ length: side * side }, (_, index) => ({
    ...some(processor.balls[0]),
    name: `${String.fromCharCode(65 + Math.floor(index / side / 5))}${String.fromCharCode(65 + (Math.floor(index / side) % 5))}${(index % side) + 1}`,
    row: Math.floor(index / side),
    column: index % side,
    x: ((index % side) - (side - 1) / 2) * pitch,
    y: ((side - 1) / 2 - Math.floor(index / side)) * pitch,
  }))
  const outer = balls.filter(
    ({ row, column }) => row === 0 || row === side - 1 || column === 0 || column === side - 1,
  )
  const sideOf = (row: number, x: number): ExitSide => {
    if (row === 0) return 'top'
    if (row === side - 1) return 'bottom'
    return x < 0 ? 'left' : 'right'
  }
  const large: EscapePlan = {
    ...plan,
    dogBones: [],
    unescaped: [],
    routes: [
      { ...some(plan.routes[0]), ball: some(balls[1275]).name, exitLayer: 3 },
      ...outer.map(({ name, x, y, row }) => ({
        ...some(plan.routes[0]),
        ball: name,
        net: name,
        leaves: sideOf(row, x),
        path: [
          { x, y },
          {
            x: row % (side - 1) === 0 ? x : x + Math.sign(x) * pitch,
            y: row % (side - 1) === 0 ? y + Math.sign(y) * pitch : y,
          },
        ],
      })),
    ],
  }
  const standing = balls.map(({ name, x, y }) => ({
    ball: name,
    at: { x, y },
    kind: 'land' as const,
    diameter: 0.4e-3,
    reach: 0.28e-3,
  }))
  const svg = breakoutMap(
    specOf(1, {
      package: { ...processor, rows: side, columns: side, balls },
      plan: large,
      layer: { ...layerOf(1), standing, bound: null },
    }),
  )

  it('is as wide as a page prints without shrinking, with every trace still drawn to scale', () => {
    expect(numberOf(tagsOf(svg)[0], 'width')).toBeLessThanOrEqual(695)
    expect(svg).not.toContain('drawn wider')
  })

  it('promises no number in rounds that are too small for one', () => {
    expect(svg).toContain('leaves on another layer (1)')
    expect(svg).not.toContain('of that number')
  })

  it('keeps a name for every exit, no smaller than 4.5 units', () => {
    const names = [...svg.matchAll(/<text[^>]*>([A-Z]{2}\d+)<\/text>/g)].map((match) => match[1])
    expect(new Set(names)).toEqual(new Set(outer.map(({ name }) => name)))
    const sizes = [...svg.matchAll(/font-size="([\d.]+)"/g)].map((match) => Number(match[1]))
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(4.5)
  })
})
