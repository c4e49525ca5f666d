import { groupBy } from '../numerics/groupBy.ts'
import { hypotenuse } from '../numerics/hypotenuse.ts'
import type { BesideNeck, NeckStretch, Route } from '../routes/route.ts'
import { distanceToSegment } from '../routes/segmentDistance.ts'
import { splitBeforeEnd } from '../routes/splitPath.ts'
import type { GridPitch } from '../board/packages.ts'
import type { Metres, Point } from '../units/quantity.ts'
import type { PlanJob } from './planJob.ts'
import { type Place, placesOnLayer } from './placesOnLayer.ts'
import { viaGrid } from './unitChannel.ts'

/**
 * Farther than this share of the pitch across the neck nothing is counted. Between 0.7 and 1 pitch a row of vias on
 * either side moves an impedance by less than a percent on a thin dielectric, by up to 3 % on one as thick as half the
 * pitch.
 */
const NEAR = 0.95
/** To which distances are told. */
const GRAIN: Metres = 1e-6

/**
 * The routes of a finished plan with what stands beside them: each via, or land without one, of another net once for a
 * neck that passes it nearer than the pitch, with the length along which it stands beside each stretch. Of a coupled
 * pair both traces are told the same: what stands beside either of them. Dog-bones and traces beside are not counted
 * here.
 */
export function besideNecks(job: PlanJob, routes: readonly Route[]): Route[] {
  const mates = matesOf(job)
  const filled = new Map<Route, Route>()
  for (const [layer, own] of groupBy(routes, ({ exitLayer }) => exitLayer)) {
    const index = new PlaceIndex(placesOnLayer(job, routes, layer), gridOn(job, layer))
    const byBall = new Map(own.map((route) => [route.ball, route]))
    for (const route of own) {
      const mate = byBall.get(mates.get(route.ball) ?? '')
      filled.set(route, { ...route, stretches: stretchesOf(index, route, mate) })
    }
  }
  return routes.map((route) => filled.get(route) ?? route)
}

function stretchesOf(index: PlaceIndex, route: Route, mate: Route | undefined): NeckStretch[] {
  const coupled = route.stretches.find((stretch) => stretch.coupled)
  const [, beside] = splitBeforeEnd(mate?.path ?? [], coupled?.length ?? 0)
  const { own, others } = index.beside(route.path, beside, new Set([route.ball, mate?.ball ?? '']))
  const toMiddle = route.gap === null ? 0 : (route.width + route.gap) / 2
  let start = 0
  return route.stretches.map((stretch): NeckStretch => {
    const [from, to] = [start, start + stretch.length]
    start = to
    const found = covered(own, from, to)
    if (!stretch.coupled) return { ...stretch, beside: summedUp(found, 0) }
    return { ...stretch, beside: summedUp([...found, ...covered(others, 0, stretch.length)], toMiddle) }
  })
}

/** Those whose pitch reaches into a part of the centre line, with the length that lies in it. */
function covered(places: readonly Found[], from: Metres, to: Metres): Covering[] {
  return places.flatMap((found) => {
    const covers = Math.min(to, found.along + found.pitch / 2) - Math.max(from, found.along - found.pitch / 2)
    return covers > GRAIN ? [{ ...found, covers }] : []
  })
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

interface Found extends Pick<BesideNeck, 'distance' | 'pitch' | 'pitchAcross'> {
  readonly place: Place
  /** From the beginning of the centre line to where it is nearest. */
  readonly along: Metres
}

interface Covering extends Found {
  readonly covers: Metres
}

/** Places by squares of the pitch. */
class PlaceIndex {
  readonly #grid: GridPitch
  readonly #cell: Metres
  readonly #cells = new Map<string, Place[]>()

  constructor(places: readonly Place[], grid: GridPitch) {
    this.#grid = grid
    this.#cell = Math.max(grid.x, grid.y)
    for (const place of places) {
      const key = this.#key(place.at.x, place.at.y)
      const known = this.#cells.get(key)
      if (known === undefined) this.#cells.set(key, [place])
      else known.push(place)
    }
  }

  /** What is near one of two lines, each place with the line that it is nearer to. */
  beside(
    line: readonly Point[],
    other: readonly Point[],
    left: ReadonlySet<string>,
  ): { own: Found[]; others: Found[] } {
    const own = this.#near(line, left)
    const others = this.#near(other, left)
    const nearer = (found: Found, than: ReadonlyMap<Place, Found>): boolean =>
      found.distance < (than.get(found.place)?.distance ?? Infinity)
    return {
      own: [...own.values()].filter((found) => nearer(found, others)),
      others: [...others.values()].filter((found) => !nearer(own.get(found.place) ?? found, others)),
    }
  }

  #near(line: readonly Point[], left: ReadonlySet<string>): Map<Place, Found> {
    const nearest = new Map<Place, Found>()
    let before = 0
    for (const [index, to] of line.entries()) {
      const from = line[index - 1]
      if (from === undefined) continue
      const pitches = pitchesOf(this.#grid, from, to)
      for (const place of this.#about(from, to)) {
        if (left.has(place.ball)) continue
        const distance = distanceToSegment(place.at, from, to)
        const known = nearest.get(place)?.distance ?? Infinity
        if (distance > NEAR * pitches.pitchAcross || distance >= known) continue
        nearest.set(place, { place, distance, ...pitches, along: before + footAlong(place.at, from, to) })
      }
      before += hypotenuse(to.x - from.x, to.y - from.y)
    }
    return nearest
  }

  *#about(from: Point, to: Point): Generator<Place> {
    const reach = NEAR * this.#cell
    const [left, right] = [Math.min(from.x, to.x) - reach, Math.max(from.x, to.x) + reach]
    const [low, high] = [Math.min(from.y, to.y) - reach, Math.max(from.y, to.y) + reach]
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

/** From the beginning of a straight piece to the point of it that is nearest. */
function footAlong(at: Point, from: Point, to: Point): Metres {
  const [dx, dy] = [to.x - from.x, to.y - from.y]
  const length = hypotenuse(dx, dy)
  if (length === 0) return 0
  return Math.min(length, Math.max(0, ((at.x - from.x) * dx + (at.y - from.y) * dy) / length))
}

/** Along a row or a column, and across it; on a slant the larger of the two is both. */
function pitchesOf({ x, y }: GridPitch, from: Point, to: Point): Pick<BesideNeck, 'pitch' | 'pitchAcross'> {
  const [across, upwards] = [Math.abs(to.x - from.x), Math.abs(to.y - from.y)]
  if (across > 2 * upwards) return { pitch: x, pitchAcross: y }
  if (upwards > 2 * across) return { pitch: y, pitchAcross: x }
  return { pitch: Math.max(x, y), pitchAcross: Math.max(x, y) }
}

function summedUp(found: readonly Covering[], toMiddle: Metres): BesideNeck[] {
  const groups = groupBy(
    found.map(({ place: { via, pad, barrel, supply }, distance, pitch, pitchAcross, covers }) => ({
      covers,
      about: {
        distance: Math.round((distance + toMiddle) / GRAIN) * GRAIN,
        pitch,
        pitchAcross,
        via,
        pad,
        barrel,
        supply,
      },
    })),
    ({ about }) => JSON.stringify(about),
  )
  return [...groups.values()]
    .flatMap((group) =>
      group.slice(0, 1).map(({ about }) => ({
        count: group.length,
        covers: group.reduce((sum, { covers }) => sum + covers, 0),
        ...about,
      })),
    )
    .toSorted((a, b) => a.distance - b.distance)
}
