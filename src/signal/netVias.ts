import type { Board } from '../board/board.ts'
import { ballOf, classOf, holesNamed, landLayerOf, netOf, packageOf } from '../board/lookup.ts'
import type { Ball, Package } from '../board/packages.ts'
import type { ViaType } from '../board/vias.ts'
import { returnInductance } from '../impedance/returnInductance.ts'
import {
  viaCapacitance,
  viaLine,
  type ViaCapacitance,
  type ViaLengths,
  type ViaLine,
  type ViaTable,
} from '../impedance/viaLine.ts'
import { groupBy } from '../numerics/groupBy.ts'
import { hypotenuse } from '../numerics/hypotenuse.ts'
import { ifSolvable } from '../numerics/ifSolvable.ts'
import type { Route } from '../routes/route.ts'
import { viaTravel } from '../routes/viaTravel.ts'
import type { Assumption } from '../units/assumption.ts'
import type { HenriesPerMetre, Metres, Point, Ratio } from '../units/quantity.ts'

/** Returns farther than this, in ball pitches, carry little beside nearer ones. */
const REACH: Ratio = 2.5
const MOST_RETURNS = 8
/** Where no ball of the package can carry the current back. */
const ASSUMED_DISTANCE: Ratio = 2

/**
 * The line of the via that takes one end of a net to a layer, its own exit layer unless another is asked for; null
 * without a via, where its holes do not reach that layer, or where they cannot be solved.
 *
 * Current comes back in the vias of the supply balls around whose nets are planes of the board, which are taken to
 * stand as far from this via as their balls from its ball; of a pair in the other via.
 */
export class NetVias implements ViaTable {
  readonly #board: Board
  readonly #returns = new Map<Package, ReturnBalls>()
  readonly #capacitances = new Map<string, ViaCapacitance>()
  readonly #ballOfNet = new Map<string, string>()
  readonly #known = new Map<string, ViaLine | null>()

  constructor(board: Board, routes: readonly Route[]) {
    this.#board = board
    for (const { net, package: pack, ball } of routes) this.#ballOfNet.set(`${net}|${pack}`, ball)
  }

  of(route: Route, exitLayer: number = route.exitLayer): ViaLine | null {
    if (route.via === null) return null
    const key = JSON.stringify([route.net, route.package, route.ball, route.via, exitLayer])
    const known = this.#known.get(key)
    if (known !== undefined) return known
    const line = ifSolvable(() => this.#toLayer(route, exitLayer))
    this.#known.set(key, line)
    return line
  }

  drilledBack(route: Route, residualStub: Metres): ViaLine | null {
    const [via, ...others] = holesNamed(this.#board, route.via)
    if (via === undefined || others.length > 0 || !(route.stubLength > residualStub)) return null
    const landLayer = landLayerOf(this.#board, packageOf(this.#board, route.package))
    const from = landLayer <= route.exitLayer ? 'bottom' : 'top'
    const drilled = { ...via, backdrill: { diameter: via.drilledDiameter, from, residualStub } } as const
    const lengths = { through: route.viaDepth, hanging: residualStub }
    return ifSolvable(() => this.#lineOf(route, [drilled], route.exitLayer, lengths))
  }

  #toLayer(route: Route, exitLayer: number): ViaLine | null {
    const holes = holesNamed(this.#board, route.via)
    if (exitLayer === route.exitLayer) {
      return this.#lineOf(route, holes, exitLayer, { through: route.viaDepth, hanging: route.stubLength })
    }
    const landLayer = landLayerOf(this.#board, packageOf(this.#board, route.package))
    return this.#lineOf(route, holes, exitLayer, travelOf(this.#board, holes, landLayer, exitLayer))
  }

  #lineOf(route: Route, holes: readonly ViaType[], exitLayer: number, lengths: ViaLengths): ViaLine | null {
    const [first] = holes
    if (first === undefined) return null
    const pack = packageOf(this.#board, route.package)
    const land = pack.viaPlacement === 'in pad' ? pack.landDiameter : null
    const key = JSON.stringify([pack.name, route.via, first.backdrill, exitLayer])
    const request = { holes, landLayer: landLayerOf(this.#board, pack), exitLayer, land }
    const capacitance = this.#capacitances.get(key) ?? viaCapacitance(this.#board, request)
    this.#capacitances.set(key, capacitance)
    return viaLine(capacitance, lengths, this.#loopOf(route, pack, first))
  }

  #loopOf(
    route: Route,
    pack: Package,
    { drilledDiameter }: ViaType,
  ): { inductance: HenriesPerMetre; isPair: boolean; assumed: readonly Assumption[] } {
    const net = netOf(this.#board, route.net)
    const isPair = classOf(this.#board, net).structure === 'pair'
    const signal = ballOf(pack, route.ball)
    const partnerBall =
      isPair && net.partner !== null ? this.#ballOfNet.get(`${net.partner}|${pack.name}`) : undefined
    const partner = partnerBall === undefined ? null : ballOf(pack, partnerBall)
    const near = this.#returnsOf(pack).near(partner === null ? [signal] : [signal, partner])
    const pitch = Math.max(pack.pitch.x, pack.pitch.y)
    const isAssumed = near.length === 0 && partner === null
    const returns: readonly Point[] = isAssumed
      ? [{ x: signal.x + ASSUMED_DISTANCE * pitch, y: signal.y }]
      : near
    const loop = returnInductance({ signal, partner, returns }, drilledDiameter / 2)
    return {
      // A pair whose other via is not known: two barrels by themselves.
      inductance: isPair && partner === null ? 2 * loop : loop,
      isPair,
      assumed: isAssumed ? [returnAssumed(route)] : [],
    }
  }

  #returnsOf(pack: Package): ReturnBalls {
    const known = this.#returns.get(pack)
    if (known !== undefined) return known
    const planes = new Set(this.#board.stackup.copper.flatMap(({ planeNet }) => planeNet ?? []))
    const found = new ReturnBalls(pack, planes)
    this.#returns.set(pack, found)
    return found
  }
}

/** Balls of a package whose vias can bring a current back, by where they are. */
class ReturnBalls {
  readonly #reach: Metres
  readonly #all: readonly Ball[]
  readonly #squares: ReadonlyMap<string, readonly Ball[]>

  constructor({ pitch, balls }: Package, planes: ReadonlySet<string>) {
    this.#reach = REACH * Math.max(pitch.x, pitch.y)
    this.#all = balls.filter(({ use, net }) =>
      net === null ? use === 'ground' : (use === 'ground' || use === 'power') && planes.has(net),
    )
    this.#squares = groupBy(this.#all, ({ x, y }) => squareOf(this.#place(x), this.#place(y)))
  }

  /** The nearest of those within reach, or the nearest of all; of a pair to either, so that both see the same. */
  near(driven: readonly Ball[]): readonly Ball[] {
    const distance = ({ x, y }: Ball): Metres =>
      driven.reduce((least, ball) => Math.min(least, hypotenuse(x - ball.x, y - ball.y)), Infinity)
    const byDistance = (balls: readonly Ball[]): Ball[] =>
      balls
        .map((ball) => ({ ball, away: distance(ball) }))
        .sort((a, b) => a.away - b.away)
        .map(({ ball }) => ball)
    const around = new Set(driven.flatMap((ball) => this.#around(ball)))
    const near = [...around].filter((ball) => distance(ball) <= this.#reach)
    return near.length > 0 ? byDistance(near).slice(0, MOST_RETURNS) : byDistance(this.#all).slice(0, 1)
  }

  /** Of the square that a ball is in and of its neighbours, none of which is narrower than the reach. */
  #around({ x, y }: Ball): Ball[] {
    const [column, row] = [this.#place(x), this.#place(y)]
    return [-1, 0, 1].flatMap((right) =>
      [-1, 0, 1].flatMap((up) => this.#squares.get(squareOf(column + right, row + up)) ?? []),
    )
  }

  #place(along: Metres): number {
    return Math.floor(along / this.#reach)
  }
}

function squareOf(column: number, row: number): string {
  return `${column}|${row}`
}

/** Of a chain, the hole that reaches the layer; RangeError where none does. */
function travelOf(board: Board, holes: readonly ViaType[], landLayer: number, exitLayer: number): ViaLengths {
  const [only] = holes
  if (only === undefined || holes.length > 1)
    throw new RangeError('holes one below the other end where they are planned to')
  const { depth, stub } = viaTravel(board.stackup, only, landLayer, exitLayer)
  return { through: depth, hanging: stub }
}

function returnAssumed(route: Route): Assumption {
  return {
    path: `packages.${route.package}.balls`,
    quantity: `way back of the current in the vias of ${route.package}`,
    value: 'one via two ball pitches away',
    source: 'no ball has the net of a plane',
  }
}
