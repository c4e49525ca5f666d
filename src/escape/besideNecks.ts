import { groupBy } from '../numerics/groupBy.ts'
import type { BesideNeck, NeckStretch, Route } from '../routes/route.ts'
import { distanceToSegment } from '../routes/segmentDistance.ts'
import { splitBeforeEnd } from '../routes/splitPath.ts'
import type { GridPitch } from '../board/packages.ts'
import type { Metres, Point } from '../units/quantity.ts'
import type { PlanJob } from './planJob.ts'
import { type Place, placesOnLayer } from './placesOnLayer.ts'
import { viaGrid } from './unitChannel.ts'

/** Farther than this share of the pitch a row of vias on either side moves no impedance by more than half a percent. */
const NEAR = 0.7
/** Of the grain to which distances are told. */
const GRAIN: Metres = 1e-6

/**
 * The routes of a finished plan with what stands beside them: each via, or land without one, of another net once for a
 * neck that passes it nearer than 0.7 of the pitch, with the stretch that it is nearest to. Of a coupled pair both traces are
 * told the same: what stands beside either of them. Dog-bones and traces beside are not counted here.
 */
export function besideNecks(job: PlanJob, routes: readonly Route[]): Route[] {
  const mates = matesOf(job)
  const filled = new Map<Route, Route>()
  for (const [layer, own] of groupBy(routes, ({ exitLayer }) => exitLayer)) {
    const index = new PlaceIndex(placesOnLayer(job, routes, layer), gridOn(job, layer))
    const byBall = new Map(own.map((route) => [route.ball, route]))
    for (const route of own) {
      const mate = byBall.get(mates.get(route.ball) ?? '')
      const lines = linesOf(route)
      const others = mate === undefined ? [] : linesOf(mate)
      const coupledMate = others.find(({ coupled }) => coupled)
      const beside = index.beside(
        [...lines, ...(coupledMate === undefined ? [] : [coupledMate])],
        new Set([route.ball, mate?.ball ?? '']),
      )
      const stretches = route.stretches.map((stretch, place): NeckStretch => {
        const found = [
          ...(beside[place] ?? []),
          ...(stretch.coupled && coupledMate !== undefined ? (beside[lines.length] ?? []) : []),
        ]
        const toMiddle = stretch.coupled && route.gap !== null ? (route.width + route.gap) / 2 : 0
        return { ...stretch, beside: summedUp(found, toMiddle) }
      })
      filled.set(route, { ...route, stretches })
    }
  }
  return routes.map((route) => filled.get(route) ?? route)
}

function matesOf({ units }: PlanJob): Map<string, string> {
  return new Map(
    units.flatMap(({ members: [one, other] }) =>
      one === undefined || other === undefined
        ? []
        : [[one.name, other.name] as const, [other.name, one.name] as const],
    ),
  )
}

function gridOn(job: PlanJob, layer: number): GridPitch {
  return layer === job.landLayer ? job.pack.pitch : viaGrid(job.pack)
}

interface CentreLine {
  readonly coupled: boolean
  readonly path: readonly Point[]
}

/** The centre line of each stretch of a route. */
function linesOf(route: Route): CentreLine[] {
  const coupled = route.stretches.find((stretch) => stretch.coupled)
  const [alone, beside] = splitBeforeEnd(route.path, coupled?.length ?? 0)
  return route.stretches.map((stretch) => ({
    coupled: stretch.coupled,
    path: stretch.coupled ? beside : alone,
  }))
}

interface Found extends Pick<BesideNeck, 'distance' | 'pitch'> {
  readonly place: Place
}

/** Places by squares of the pitch. */
class PlaceIndex {
  readonly #grid: GridPitch
  readonly #cell: Metres
  readonly #reach: Metres
  readonly #cells = new Map<string, Place[]>()

  constructor(places: readonly Place[], grid: GridPitch) {
    this.#grid = grid
    this.#cell = Math.max(grid.x, grid.y)
    this.#reach = NEAR * Math.min(grid.x, grid.y)
    for (const place of places) {
      const key = this.#key(place.at.x, place.at.y)
      const known = this.#cells.get(key)
      if (known === undefined) this.#cells.set(key, [place])
      else known.push(place)
    }
  }

  /** For each line the places that are nearer to it than to the others, and near enough. */
  beside(lines: readonly CentreLine[], left: ReadonlySet<string>): Found[][] {
    const nearest = new Map<Place, Found & { line: number }>()
    for (const [line, { path }] of lines.entries()) {
      for (const [index, to] of path.entries()) {
        const from = path[index - 1]
        if (from === undefined) continue
        for (const place of this.#about(from, to)) {
          if (left.has(place.ball)) continue
          const distance = distanceToSegment(place.at, from, to)
          if (distance > this.#reach || distance >= (nearest.get(place)?.distance ?? Infinity)) continue
          nearest.set(place, { place, distance, pitch: pitchAlong(this.#grid, from, to), line })
        }
      }
    }
    const found = lines.map((): Found[] => [])
    for (const each of nearest.values()) found[each.line]?.push(each)
    return found
  }

  *#about(from: Point, to: Point): Generator<Place> {
    const [left, right] = [Math.min(from.x, to.x) - this.#reach, Math.max(from.x, to.x) + this.#reach]
    const [low, high] = [Math.min(from.y, to.y) - this.#reach, Math.max(from.y, to.y) + this.#reach]
    for (let x = Math.floor(left / this.#cell); x <= Math.floor(right / this.#cell); x += 1) {
      for (let y = Math.floor(low / this.#cell); y <= Math.floor(high / this.#cell); y += 1) {
        yield* this.#cells.get(`${x}|${y}`) ?? []
      }
    }
  }

  #key(x: Metres, y: Metres): string {
    return `${Math.floor(x / this.#cell)}|${Math.floor(y / this.#cell)}`
  }
}

/** Along a row or a column its pitch; on a slant the larger of the two. */
function pitchAlong({ x, y }: GridPitch, from: Point, to: Point): Metres {
  const [across, upwards] = [Math.abs(to.x - from.x), Math.abs(to.y - from.y)]
  if (across > 2 * upwards) return x
  return upwards > 2 * across ? y : Math.max(x, y)
}

function summedUp(found: readonly Found[], toMiddle: Metres): BesideNeck[] {
  const groups = groupBy(
    found.map(({ place: { via, pad, barrel, supply }, distance, pitch }) => ({
      distance: Math.round((distance + toMiddle) / GRAIN) * GRAIN,
      pitch,
      via,
      pad,
      barrel,
      supply,
    })),
    (each) => JSON.stringify(each),
  )
  return [...groups.values()]
    .flatMap((group) => group.slice(0, 1).map((one) => ({ count: group.length, ...one })))
    .toSorted((a, b) => a.distance - b.distance)
}
