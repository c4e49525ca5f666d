import { groupBy } from '../numerics/groupBy.ts'
import type { Metres, Point } from '../units/quantity.ts'
import type { Route } from './route.ts'
import { PieceGrid, type Piece } from './pieceGrid.ts'

/** A stretch in which a trace of another net runs beside a trace, with no other trace between the two. */
export interface ParallelRun {
  readonly route: Route
  readonly neighbour: Route
  /** Foot edge to foot edge, in the middle of the stretch. */
  readonly gap: Metres
  /** Along the route's own centre line. */
  readonly length: Metres
  /** From the first point of the route's path to the middle of the stretch. */
  readonly at: Metres
}

export interface RunSearch {
  /** Edge-to-edge gap on a copper layer beyond which traces are no neighbours; 0 for none there. */
  reach(layer: number): Metres
  /** The other net of a pair: it screens, but is no neighbour. Null for single nets. */
  partnerOf(net: string): string | null
}

/** Sine of the largest angle at which two pieces count as parallel, 5.7 degrees: over a length of ten gaps one gap. */
const PARALLEL = 0.1
/** Stretches shorter than this come from corners. */
const SHORTEST: Metres = 5e-6

/**
 * Stretches in which two traces run side by side on one layer of one package, each told once for either of them as
 * `route`. Traces of the same net and the two of a pair are no neighbours of each other, but hide what is behind them.
 *
 * Only centre lines on the exit layers are looked at: dog-bones on the layer of the lands are not.
 * Order: that of the routes, and along each.
 *
 * Throws RangeError when a reach is negative or not finite.
 */
export function parallelRuns(routes: readonly Route[], search: RunSearch): ParallelRun[] {
  const runs = new Map<Route, ParallelRun[]>()
  for (const group of groupBy(routes, (route) => `${route.package}|${route.exitLayer}`).values()) {
    runsOfLayer(group, search, runs)
  }
  return routes.flatMap((route) => runs.get(route) ?? [])
}

function runsOfLayer(routes: readonly Route[], search: RunSearch, found: Map<Route, ParallelRun[]>): void {
  const [first] = routes
  if (first === undefined) return
  const reach = search.reach(first.exitLayer)
  if (!(reach >= 0 && Number.isFinite(reach))) {
    throw new RangeError(`reach on layer ${first.exitLayer} must be 0 or more, got ${reach} m`)
  }
  if (reach === 0) return
  const pieces = routes.flatMap(piecesOf)
  const widest = routes.reduce((most, { width }) => Math.max(most, width), 0)
  const grid = new PieceGrid(pieces, reach + widest)
  for (const piece of pieces) {
    const list = found.get(piece.route) ?? []
    found.set(piece.route, list)
    const beside = grid.near(piece).flatMap((other) => besideOf(piece, other, reach))
    list.push(...inSight(piece, beside, search))
  }
}

function piecesOf(route: Route): Piece[] {
  let start = 0
  return route.path.flatMap((to, index) => {
    const from = route.path[index - 1]
    if (from === undefined) return []
    const length = Math.hypot(to.x - from.x, to.y - from.y)
    if (!(length > 0)) return []
    const along = { x: (to.x - from.x) / length, y: (to.y - from.y) / length }
    const piece = { route, from, to, along, length, start }
    start += length
    return [piece]
  })
}

/** Another piece as it lies beside one: lengths along that, offsets across it, positive to the left. */
interface Beside {
  readonly route: Route
  readonly from: Metres
  readonly to: Metres
  readonly offset: (along: Metres) => Metres
  /** Edge to edge in the middle of what they share. */
  readonly gap: Metres
  readonly left: boolean
}

function besideOf(piece: Piece, other: Piece, reach: Metres): Beside[] {
  const { along } = piece
  if (other.route === piece.route) return []
  if (Math.abs(along.x * other.along.y - along.y * other.along.x) > PARALLEL) return []
  const [a, b] = [inFrameOf(piece, other.from), inFrameOf(piece, other.to)]
  const from = Math.max(0, Math.min(a.x, b.x))
  const to = Math.min(piece.length, Math.max(a.x, b.x))
  if (!(to - from > SHORTEST)) return []
  const offset = (at: Metres): Metres => a.y + ((b.y - a.y) * (at - a.x)) / (b.x - a.x)
  const across = offset((from + to) / 2)
  const gap = Math.abs(across) - (piece.route.width + other.route.width) / 2
  if (gap > reach) return []
  return [{ route: other.route, from, to, offset, gap, left: across > 0 }]
}

function inFrameOf({ from, along }: Piece, point: Point): Point {
  const [dx, dy] = [point.x - from.x, point.y - from.y]
  return { x: dx * along.x + dy * along.y, y: dy * along.x - dx * along.y }
}

/** On either side the nearest first; each hides what is behind it. */
function inSight(piece: Piece, beside: readonly Beside[], search: RunSearch): ParallelRun[] {
  const { route } = piece
  const partner = search.partnerOf(route.net)
  const runs = [true, false].flatMap((left) => {
    let open: readonly Interval[] = [{ from: 0, to: piece.length }]
    return beside
      .filter((each) => each.left === left)
      .sort((one, two) => one.gap - two.gap)
      .flatMap((each) => {
        const seen = open.flatMap((interval) => common(interval, each))
        open = open.flatMap((interval) => without(interval, each))
        return each.route.net === route.net || each.route.net === partner
          ? []
          : seen.flatMap((interval) => runOf(piece, each, interval))
      })
  })
  return runs.sort((one, two) => one.at - two.at)
}

/** None where the two would touch. */
function runOf(piece: Piece, beside: Beside, { from, to }: Interval): ParallelRun[] {
  const { route } = piece
  const middle = (from + to) / 2
  const gap = Math.abs(beside.offset(middle)) - (route.width + beside.route.width) / 2
  if (!(gap > 0)) return []
  return [{ route, neighbour: beside.route, gap, length: to - from, at: piece.start + middle }]
}

interface Interval {
  readonly from: Metres
  readonly to: Metres
}

function common(one: Interval, two: Interval): Interval[] {
  const from = Math.max(one.from, two.from)
  const to = Math.min(one.to, two.to)
  return to - from > SHORTEST ? [{ from, to }] : []
}

function without(whole: Interval, part: Interval): Interval[] {
  return [
    { from: whole.from, to: Math.min(whole.to, part.from) },
    { from: Math.max(whole.from, part.to), to: whole.to },
  ].filter(({ from, to }) => to - from > SHORTEST)
}
