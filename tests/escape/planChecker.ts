import type { Board } from '../../src/board/board.ts'
import type { Ball, Package } from '../../src/board/packages.ts'
import type { ViaType } from '../../src/board/vias.ts'
import type { EscapePlan } from '../../src/escape/escape.ts'
import type { Route } from '../../src/routes/route.ts'
import type { Point } from '../../src/units/quantity.ts'

/**
 * Looks at a finished plan as somebody with a ruler would: lands, vias and traces are drawn on each layer,
 * and every distance is measured. Shares no code with the planner.
 */
export interface Supply {
  /** Names of the vias under a power or ground ball, from the land inwards. */
  (ball: Ball): readonly string[]
}

interface Disc extends Point {
  readonly ball: string
  /** From the centre to the nearest edge of a trace. */
  readonly keepOut: number
}

/** The comparison tolerance of the boards, and rounding. */
const SLACK = 0.501e-6

export function planFaults(board: Board, pack: Package, plan: EscapePlan, supply: Supply): string[] {
  const layers = [...new Set(plan.routes.map(({ exitLayer }) => exitLayer))]
  return [
    ...countFaults(pack, plan),
    ...layers.flatMap((layer) => {
      const routes = plan.routes.filter(({ exitLayer }) => exitLayer === layer)
      const discs = discsOn(board, pack, plan, supply, layer)
      return [
        ...routes.flatMap((route) => pathFaults(board, pack, plan, route, discs)),
        ...spacingFaults(board, routes),
        ...gapFaults(board, pack, layer, routes, discs),
      ]
    }),
  ]
}

function countFaults(pack: Package, plan: EscapePlan): string[] {
  const signals = pack.balls.filter(({ use }) => use === 'signal').map(({ name }) => name)
  const told = [...plan.routes.map(({ ball }) => ball), ...plan.unescaped.map(({ ball }) => ball)]
  return [
    ...signals.filter((name) => !told.includes(name)).map((name) => `${name} is forgotten`),
    ...told.filter((name) => !signals.includes(name)).map((name) => `${name} is no signal`),
    ...told.filter((name, index) => told.indexOf(name) !== index).map((name) => `${name} is used twice`),
  ]
}

function landLayer(board: Board, pack: Package): number {
  return pack.placement.side === 'top' ? 1 : board.stackup.copper.length
}

/** Where the dog-bone ends, or in the land. */
function viaPlace(plan: EscapePlan, ball: Ball): Point {
  return plan.dogBones.find((bone) => bone.ball === ball.name)?.to ?? { x: ball.x, y: ball.y }
}

function viasOf(board: Board, names: readonly string[]): ViaType[] {
  return names.map((name) => {
    const via = board.vias.find((each) => each.name === name)
    if (via === undefined) throw new RangeError(`no via ${name}`)
    return via
  })
}

function discsOn(board: Board, pack: Package, plan: EscapePlan, supply: Supply, layer: number): Disc[] {
  const { fabrication: f } = board
  const outer = layer === 1 || layer === board.stackup.copper.length
  const toPad = outer ? f.traceToPad.outer : f.traceToPad.inner
  const onLand = layer === landLayer(board, pack)
  const lands = onLand
    ? pack.balls.map((ball): Disc => ({
        x: ball.x,
        y: ball.y,
        ball: ball.name,
        keepOut: Math.max(pack.landDiameter / 2 + toPad, pack.maskOpening / 2 + f.maskOpeningToTrace),
      }))
    : []
  const vias = pack.balls.flatMap((ball): Disc[] => {
    const route = plan.routes.find((each) => each.ball === ball.name)
    // Vias whose pads would touch are left out of a plan altogether.
    const supplied = plan.supplies.some((each) => each.ball === ball.name) ? supply(ball) : []
    const names = route?.via?.split(' + ') ?? supplied
    return viasOf(board, names)
      .filter((via) => via.firstLayer <= layer && layer <= via.lastLayer)
      .map((via) => {
        const end = layer === via.firstLayer || layer === via.lastLayer
        const padded = end || via.unconnectedInnerPads === 'kept' || route?.exitLayer === layer
        const pad = padded ? (via.padDiameters[layer - via.firstLayer] ?? NaN) / 2 + toPad : 0
        const keepOut = Math.max(pad, via.drilledDiameter / 2 + f.drillToCopper)
        return { ...viaPlace(plan, ball), ball: ball.name, keepOut }
      })
  })
  return [...lands, ...vias]
}

/** Distance from a point to a segment: to an end where the angle there is obtuse, else the height of the triangle. */
function fromSegment(p: Point, a: Point, b: Point): number {
  const base = Math.hypot(b.x - a.x, b.y - a.y)
  const toA = Math.hypot(p.x - a.x, p.y - a.y)
  const toB = Math.hypot(p.x - b.x, p.y - b.y)
  if (base === 0 || toB ** 2 >= toA ** 2 + base ** 2) return toA
  if (toA ** 2 >= toB ** 2 + base ** 2) return toB
  return Math.abs((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)) / base
}

function segmentsOf(path: readonly Point[]): [Point, Point][] {
  return path.slice(1).map((point, index): [Point, Point] => [path[index] ?? point, point])
}

function fromPath(p: Point, path: readonly Point[]): number {
  return Math.min(...segmentsOf(path).map(([a, b]) => fromSegment(p, a, b)))
}

function betweenPaths(one: readonly Point[], other: readonly Point[]): number {
  const crossing = segmentsOf(one).some(([a, b]) => segmentsOf(other).some(([c, d]) => crosses(a, b, c, d)))
  if (crossing) return 0
  return Math.min(...one.map((p) => fromPath(p, other)), ...other.map((p) => fromPath(p, one)))
}

function pathFaults(
  board: Board,
  pack: Package,
  plan: EscapePlan,
  route: Route,
  discs: readonly Disc[],
): string[] {
  const ball = pack.balls.find(({ name }) => name === route.ball)
  const start = route.path[0]
  const end = route.path.at(-1)
  if (ball === undefined || start === undefined || end === undefined) return [`${route.ball} has no path`]
  const onLand = route.exitLayer === landLayer(board, pack)
  const from = onLand ? ball : viaPlace(plan, ball)
  return [
    ...(Math.hypot(start.x - from.x, start.y - from.y) > 1e-9 ? [`${route.ball} starts elsewhere`] : []),
    ...endFaults(pack, route, end, onLand),
    ...lengthFaults(route, Math.hypot(from.x - ball.x, from.y - ball.y)),
    ...discs.flatMap((disc) => {
      const missing = disc.keepOut + route.width / 2 - SLACK - fromPath(disc, route.path)
      return disc.ball === route.ball || missing <= 0
        ? []
        : [`${route.ball} is ${missing} m too near to what stands at ${disc.ball}`]
    }),
  ]
}

/** The last point lies half a pitch outside the last row of lands or vias; where rows are moved sideways, up to a pitch. */
function endFaults(pack: Package, route: Route, end: Point, onLand: boolean): string[] {
  const onBalls = onLand || pack.viaPlacement === 'in pad'
  const pitch = onBalls ? pack.pitch : pack.viaPitch
  const spread = onBalls ? 0 : 1
  const outside = (across: number, count: number, step: number): number =>
    Math.abs(across) - ((count - 1 + spread) / 2) * step - step / 2
  const left = Math.max(outside(end.x, pack.columns, pitch.x), outside(end.y, pack.rows, pitch.y))
  const moved = !pack.onGrid && left > 0 && left < pitch.x
  return Math.abs(left) > 1e-9 && !moved
    ? [`${route.ball} ends ${left} m from half a pitch outside the last row`]
    : []
}

function lengthFaults(route: Route, dogBone: number): string[] {
  const length = segmentsOf(route.path).reduce(
    (sum, [a, b]) => sum + Math.hypot(b.x - a.x, b.y - a.y),
    dogBone,
  )
  return Math.abs(length - route.neckLength) > 1e-9 ? [`${route.ball} is ${length} m long`] : []
}

function spacingFaults(board: Board, routes: readonly Route[]): string[] {
  return routes.flatMap((route, index) =>
    routes.slice(index + 1).flatMap((other) => {
      const gap =
        isPartner(board, route, other) && route.gap !== null ? route.gap : traceGap(board, route.exitLayer)
      const needed = (route.width + other.width) / 2 + gap
      if (farApart(route.path, other.path, needed)) return []
      const nearest = betweenPaths(route.path, other.path)
      return nearest >= needed - SLACK
        ? []
        : [`${route.ball} and ${other.ball} are ${nearest} m apart, ${needed} m needed`]
    }),
  )
}

function farApart(one: readonly Point[], other: readonly Point[], needed: number): boolean {
  const box = (path: readonly Point[], axis: 'x' | 'y'): [number, number] => [
    Math.min(...path.map((point) => point[axis])),
    Math.max(...path.map((point) => point[axis])),
  ]
  return (['x', 'y'] as const).some((axis) => {
    const [low, high] = box(one, axis)
    const [otherLow, otherHigh] = box(other, axis)
    return high + needed < otherLow || otherHigh + needed < low
  })
}

function traceGap(board: Board, layer: number): number {
  const outer = layer === 1 || layer === board.stackup.copper.length
  return outer ? board.fabrication.traceGap.outer : board.fabrication.traceGap.inner
}

/**
 * Counts anew how many traces cross each gap between two neighbouring obstacles of a row, of a column, and on a
 * diagonal, and what they need there.
 */
function gapFaults(
  board: Board,
  pack: Package,
  layer: number,
  routes: readonly Route[],
  discs: readonly Disc[],
): string[] {
  const gaps = [...rowGaps(discs, 'x', 'y'), ...rowGaps(discs, 'y', 'x'), ...diagonalGaps(pack, discs)]
  return gaps.flatMap(([one, other]) => {
    const across = routes.filter(
      (route) =>
        route.ball !== one.ball &&
        route.ball !== other.ball &&
        route.path.some((point, index) => {
          const before = route.path[index - 1]
          return before !== undefined && crosses(before, point, one, other)
        }),
    )
    const coupled = across.filter(
      (route) => route.gap !== null && across.some((each) => isPartner(board, route, each)),
    ).length
    const widths = across.reduce((sum, { width }) => sum + width, 0)
    const pairGap = across.find((route) => route.gap !== null)?.gap ?? 0
    const gap = traceGap(board, layer)
    const needed = widths + Math.max(0, across.length - 1 - coupled / 2) * gap + (coupled / 2) * pairGap
    const clear = Math.hypot(one.x - other.x, one.y - other.y) - one.keepOut - other.keepOut
    return across.length === 0 || needed <= clear + SLACK
      ? []
      : [`${across.length} traces between ${one.ball} and ${other.ball} need ${needed} m of ${clear} m`]
  })
}

function isPartner(board: Board, one: Route, other: Route): boolean {
  return board.nets.find(({ name }) => name === one.net)?.partner === other.net
}

function rowGaps(discs: readonly Disc[], along: 'x' | 'y', across: 'x' | 'y'): [Disc, Disc][] {
  const rows = new Map<number, Disc[]>()
  for (const disc of discs) {
    const key = Math.round(disc[across] * 1e9)
    rows.set(key, [...(rows.get(key) ?? []), disc])
  }
  return [...rows.values()].flatMap((row) => {
    const sorted = row.toSorted((a, b) => a[along] - b[along])
    return sorted.flatMap((disc, index): [Disc, Disc][] => {
      const next = sorted[index + 1]
      return next === undefined || next[along] - disc[along] < 1e-9 ? [] : [[disc, next]]
    })
  })
}

function diagonalGaps(pack: Package, discs: readonly Disc[]): [Disc, Disc][] {
  const reach = 1.01 * Math.hypot(pack.viaPitch.x, pack.viaPitch.y)
  const least = 1.01 * Math.max(pack.viaPitch.x, pack.viaPitch.y)
  return discs.flatMap((one, index) =>
    discs.slice(index + 1).flatMap((other): [Disc, Disc][] => {
      const distance = Math.hypot(one.x - other.x, one.y - other.y)
      return distance > least && distance < reach && one.x !== other.x && one.y !== other.y
        ? [[one, other]]
        : []
    }),
  )
}

function crosses(a: Point, b: Point, c: Point, d: Point): boolean {
  const side = (p: Point, q: Point, r: Point): number => (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x)
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0
}
