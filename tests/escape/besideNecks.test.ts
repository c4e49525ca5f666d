import { describe, expect, it } from 'vitest'
import type { Board } from '../../src/board/board.ts'
import type { Package } from '../../src/board/packages.ts'
import type { EscapePlan } from '../../src/escape/escape.ts'
import { planEscape } from '../../src/escape/planEscape.ts'
import { pathLength } from '../../src/routes/pathLength.ts'
import type { BesideNeck, Route } from '../../src/routes/route.ts'
import type { Metres, Point } from '../../src/units/quantity.ts'
import { boardOf, packageOf, pairOf, um } from './fixtures.ts'
import { laminated, MICROVIAS } from './variants/fixtures.ts'

const SAMPLE: Metres = 2e-6

/** Points a step apart all along a centre line. */
function samples(path: readonly Point[]): Point[] {
  return path.slice(1).flatMap((to, index) => {
    const from = path[index] ?? to
    const steps = Math.max(1, Math.ceil(Math.hypot(to.x - from.x, to.y - from.y) / SAMPLE))
    return Array.from({ length: steps + 1 }, (_, step) => ({
      x: from.x + ((to.x - from.x) * step) / steps,
      y: from.y + ((to.y - from.y) * step) / steps,
    }))
  })
}

/** How near a path comes to each of the places, measured point by point; those of the given balls left out. */
function measured(
  path: readonly Point[],
  places: readonly (Point & { ball: string })[],
  left: readonly string[],
): Metres[] {
  const points = samples(path)
  return places
    .filter(({ ball }) => !left.includes(ball))
    .map((place) => Math.min(...points.map(({ x, y }) => Math.hypot(x - place.x, y - place.y))))
    .toSorted((a, b) => a - b)
}

function told(beside: readonly BesideNeck[]): Metres[] {
  return beside
    .flatMap(({ count, distance }) => new Array<Metres>(count).fill(distance))
    .toSorted((a, b) => a - b)
}

/** Places of vias that pass a layer below the lands: through vias, of nets that leave below their land and of supplies. */
function throughVias(plan: EscapePlan): (Point & { ball: string })[] {
  return plan.dogBones.map(({ ball, to }) => ({ ball, ...to }))
}

function planned(pack: Package, change: Partial<Board> = {}): EscapePlan {
  return planEscape(laminated(pack, change), pack, 'through')
}

/** Both ways count what is nearer than 0.95 of the pitch; what lies right at it may fall to either side. */
function expectEqualBeside(
  route: Route,
  places: readonly (Point & { ball: string })[],
  pitch: Metres,
): number {
  const found = route.stretches.flatMap(({ beside }) => told(beside)).toSorted((a, b) => a - b)
  const sure = (distance: Metres): boolean => distance < 0.95 * pitch - 2e-6
  const expected = measured(route.path, places, [route.ball]).filter(sure)
  const own = found.filter(sure)
  expect(own).toHaveLength(expected.length)
  own.forEach((distance, index) => {
    expect(Math.abs(distance - Number(expected[index]))).toBeLessThan(2e-6)
  })
  return own.length
}

describe('what stands beside necks', () => {
  const pack = packageOf([
    'ssssssssssss',
    'ssgssspssssg',
    'ssssgssssgss',
    'spsssspsssss',
    'sssgssss.sss',
    'ssssspssssss',
    'ss.sssssgsss',
    'ssssgssspsss',
    'sspssssssssg',
    'ssssssgsssss',
    'sgsssssspsss',
    'ssssssssssss',
  ])

  it('is, among through vias, what a ruler finds along every path', () => {
    const plan = planned(pack)
    const places = throughVias(plan)
    const inner = plan.routes.filter(({ exitLayer }) => exitLayer !== 1)
    const counted = inner.map((route) => expectEqualBeside(route, places, pack.pitch.x))
    expect(counted.reduce((sum, count) => sum + count, 0)).toBeGreaterThan(20)
  })

  it('is, on the layer of the lands, every land and the vias of the dog-bones', () => {
    const plan = planned(pack)
    const places = [...pack.balls.map(({ name, x, y }) => ({ ball: name, x, y })), ...throughVias(plan)]
    const outer = plan.routes.filter(({ exitLayer }) => exitLayer === 1)
    const counted = outer.map((route) => expectEqualBeside(route, places, pack.pitch.x))
    expect(counted.reduce((sum, count) => sum + count, 0)).toBeGreaterThan(20)
    const lands = outer.flatMap(({ stretches }) => stretches.flatMap(({ beside }) => beside))
    expect(
      lands
        .filter(({ via }) => via === null)
        .every(({ pad, barrel }) => pad === pack.landDiameter && barrel === null),
    ).toBe(true)
  })

  it('covers the whole neck below its dog-bone', () => {
    for (const { stretches, neckLength, dogBoneLength, path } of planned(pack).routes) {
      const length = stretches.reduce((sum, stretch) => sum + stretch.length, 0)
      expect(length).toBeCloseTo(neckLength - dogBoneLength, 9)
      expect(length).toBeCloseTo(pathLength(path), 9)
    }
  })

  it('stands beside a neck for a pitch at most, less at its ends, and never for more than its length', () => {
    const plan = planned(pack)
    const lands = pack.balls.map(({ name, x, y }) => ({ ball: name, x, y }))
    let shortened = 0
    for (const { stretches, path, ball, exitLayer } of plan.routes) {
      const places = [...(exitLayer === 1 ? lands : []), ...throughVias(plan)]
      const length = pathLength(path)
      for (const { beside } of stretches) {
        for (const { covers, count, pitch } of beside) {
          expect(covers).toBeLessThanOrEqual(Math.min(count * pitch, count * length) + 1e-12)
          expect(covers).toBeGreaterThan(0)
          if (covers < count * pitch - 1e-9) shortened += 1
        }
      }
      // By a ruler: of each place that is near enough, the part of a pitch about its nearest point that lies on the path.
      const points = samples(path)
      const expected = places
        .filter((place) => place.ball !== ball)
        .map((place) => {
          const distances = points.map(({ x, y }) => Math.hypot(x - place.x, y - place.y))
          const least = Math.min(...distances)
          if (least > 0.95 * pack.pitch.x) return 0
          const at = (distances.indexOf(least) / (points.length - 1)) * length
          return Math.min(length, at + pack.pitch.x / 2) - Math.max(0, at - pack.pitch.x / 2)
        })
        .reduce((sum, part) => sum + part, 0)
      const told = stretches.flatMap(({ beside }) => beside).reduce((sum, { covers }) => sum + covers, 0)
      expect(Math.abs(told - expected)).toBeLessThan(0.05 * pack.pitch.x)
    }
    expect(shortened).toBeGreaterThan(3)
  })

  it('tells vias of power and ground by their net', () => {
    const beside = planned(pack).routes.flatMap(({ stretches }) => stretches.flatMap((each) => each.beside))
    const nets = new Set(pack.balls.filter(({ use }) => use !== 'signal').map(({ net }) => net))
    const told = new Set(beside.map(({ supply }) => supply).filter((supply) => supply !== null))
    expect(told.size).toBeGreaterThan(0)
    for (const net of told) expect(nets.has(net)).toBe(true)
  })

  it('has the drill of the via, and its pad only where it stands', () => {
    const vias = laminated(pack).vias.map((via) => ({ ...via, unconnectedInnerPads: 'removed' as const }))
    const beside = planned(pack, { vias })
      .routes.filter(({ exitLayer }) => exitLayer !== 1)
      .flatMap((route) => route.stretches.flatMap((each) => each.beside))
    expect(beside.length).toBeGreaterThan(0)
    expect(beside.every(({ barrel }) => barrel === um(200))).toBe(true)
    expect(beside.some(({ pad }) => pad === null)).toBe(true)
    const kept = planned(pack).routes.filter(({ exitLayer }) => exitLayer !== 1)
    const pads = kept.flatMap((route) => route.stretches.flatMap((each) => each.beside.map(({ pad }) => pad)))
    expect(pads.every((pad) => pad === um(450))).toBe(true)
  })

  it('knows no barrel where the hole is drilled back', () => {
    const vias = laminated(pack).vias.map((via) => ({
      ...via,
      backdrill: { diameter: um(350), from: 'bottom' as const, residualStub: um(150) },
    }))
    const plan = planned(pack, { vias })
    const deepest = Math.max(...plan.routes.map(({ exitLayer }) => exitLayer))
    const beside = plan.routes
      .filter(({ exitLayer }) => exitLayer === deepest)
      .flatMap((route) => route.stretches.flatMap((each) => each.beside))
    const shallower = plan.routes.some(({ exitLayer }) => exitLayer > 1 && exitLayer < deepest)
    expect(shallower ? beside.some(({ barrel, pad }) => barrel === null && pad === null) : true).toBe(true)
  })

  it('counts lands with microvias once, with the land as their pad', () => {
    const small = packageOf(['sss', 'sgs', 'sss'])
    const board = laminated(small, { vias: [...MICROVIAS, ...laminated(small).vias] })
    const inPad = { ...small, via: 'laser 1', viaPlacement: 'in pad' as const }
    const plan = planEscape({ ...board, packages: [inPad] }, inPad, 'blind')
    const onLands = plan.routes.filter(({ exitLayer }) => exitLayer === 1)
    const places = inPad.balls.map(({ name, x, y }) => ({ ball: name, x, y }))
    const counted = onLands.map((route) => expectEqualBeside(route, places, inPad.pitch.x))
    expect(counted.length).toBeGreaterThan(0)
  })
})

describe('what stands beside a coupled pair', () => {
  it('is told of both traces alike, from the line between them', () => {
    const pack = packageOf(['ssssss', 'ssssss', 'ssssss', 'ssssss', 'ssssss', 'ssssss'], {
      pitch: { x: um(1000), y: um(1000) },
    })
    const names = pack.balls.map(({ net }) => net ?? '')
    const [first = '', second = ''] = [names[14], names[15]]
    const board = boardOf(pack)
    const nets = [
      ...pairOf(first, second),
      ...board.nets.filter(({ name }) => name !== first && name !== second),
    ]
    const plan = planEscape({ ...laminated(pack), nets }, pack, 'through')
    const pair = plan.routes.filter(({ net }) => net === first || net === second)
    const coupled = pair.map(({ stretches }) => stretches.find((stretch) => stretch.coupled))
    expect(coupled).toHaveLength(2)
    expect(coupled[0]?.beside).toEqual(coupled[1]?.beside)
    const [route] = pair
    if (route === undefined || route.gap === null) throw new Error('the pair does not run coupled')
    const least = (route.width + route.gap) / 2 + um(400) / 2 + um(100) + route.width / 2
    for (const { distance } of coupled[0]?.beside ?? []) expect(distance).toBeGreaterThan(least - um(1))
  })
})
