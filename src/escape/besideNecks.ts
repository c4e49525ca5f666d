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
  const { own, others } = index.beside(route.path, beside, [route.ball, mate?.ball])
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
  /** Numbers of the first square across and upwards in which there is a place. */
  readonly #left: number
  readonly #low: number
  readonly #columns: number
  readonly #rows: number
  readonly #cells: Place[][]

  constructor(places: readonly Place[], grid: GridPitch) {
    this.#grid = grid
    this.#cell = Math.max(grid.x, grid.y)
    const across = places.map(({ at }) => Math.floor(at.x / this.#cell))
    const upwards = places.map(({ at }) => Math.floor(at.y / this.#cell))
    this.#left = least(across)
    this.#low = least(upwards)
    this.#columns = places.length === 0 ? 0 : most(across) - this.#left + 1
    this.#rows = places.length === 0 ? 0 : most(upwards) - this.#low + 1
    this.#cells = Array.from({ length: this.#columns * this.#rows }, () => [])
    for (let index = 0; index < places.length; index += 1) {
      const place = places[index]
      const square = ((across[index] ?? 0) - this.#left) * this.#rows + (upwards[index] ?? 0) - this.#low
      if (place !== undefined) this.#cells[square]?.push(place)
    }
  }

  /** What is near one of two lines, each place with the line that it is nearer to. */
  beside(
    line: readonly Point[],
    other: readonly Point[],
    left: readonly (string | undefined)[],
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

  #near(line: readonly Point[], left: readonly (string | undefined)[]): Map<Place, Found> {
    const nearest = new Map<Place, Found>()
    let before = 0
    let from: Point | undefined
    for (const to of line) {
      if (from !== undefined) {
        const pitches = pitchesOf(this.#grid, from, to)
        for (const place of this.#about(from, to)) {
          if (left.includes(place.ball)) continue
          const distance = distanceToSegment(place.at, from, to)
          if (distance > NEAR * pitches.pitchAcross) continue
          const known = nearest.get(place)
          if (known !== undefined && distance >= known.distance) continue
          const { pitch, pitchAcross } = pitches
          const along = before + footAlong(place.at, from, to)
          nearest.set(place, { place, distance, pitch, pitchAcross, along })
        }
        before += hypotenuse(to.x - from.x, to.y - from.y)
      }
      from = to
    }
    return nearest
  }

  #about(from: Point, to: Point): Place[] {
    const reach = NEAR * this.#cell
    const first = Math.max(0, Math.floor((Math.min(from.x, to.x) - reach) / this.#cell) - this.#left)
    const last = Math.floor((Math.max(from.x, to.x) + reach) / this.#cell) - this.#left
    const bottom = Math.max(0, Math.floor((Math.min(from.y, to.y) - reach) / this.#cell) - this.#low)
    const top = Math.floor((Math.max(from.y, to.y) + reach) / this.#cell) - this.#low
    const found: Place[] = []
    for (let column = first; column <= last && column < this.#columns; column += 1) {
      for (let row = bottom; row <= top && row < this.#rows; row += 1) {
        for (const place of this.#cells[column * this.#rows + row] ?? []) found.push(place)
      }
    }
    return found
  }
}

function least(values: readonly number[]): number {
  return values.reduce((known, value) => Math.min(known, value), Infinity)
}

function most(values: readonly number[]): number {
  return values.reduce((known, value) => Math.max(known, value), -Infinity)
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

/** What is alike counts together, in the order in which the first of each is met along the neck, and by distance. */
function summedUp(found: readonly Covering[], toMiddle: Metres): BesideNeck[] {
  const groups: { count: number; covers: Metres; readonly about: AboutBeside }[] = []
  for (const { place, distance: across, pitch, pitchAcross, covers } of found) {
    const distance = Math.round((across + toMiddle) / GRAIN) * GRAIN
    const { via, pad, barrel, supply } = place
    const about = { distance, pitch, pitchAcross, via, pad, barrel, supply }
    const group = groups.find((known) => isAlike(known.about, about))
    if (group === undefined) groups.push({ count: 1, covers, about })
    else {
      group.count += 1
      group.covers += covers
    }
  }
  return groups
    .map(({ count, covers, about }) => ({ count, covers, ...about }))
    .toSorted((a, b) => a.distance - b.distance)
}

type AboutBeside = Omit<BesideNeck, 'count' | 'covers'>

function isAlike(one: AboutBeside, other: AboutBeside): boolean {
  return (
    one.distance === other.distance &&
    one.pitch === other.pitch &&
    one.pitchAcross === other.pitchAcross &&
    one.via === other.via &&
    one.pad === other.pad &&
    one.barrel === other.barrel &&
    one.supply === other.supply
  )
}
