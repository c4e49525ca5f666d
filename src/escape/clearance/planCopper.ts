import type { Board } from '../../board/board.ts'
import { ballOf, viaOf } from '../../board/lookup.ts'
import type { Ball, Package } from '../../board/packages.ts'
import type { ViaType } from '../../board/vias.ts'
import type { Metres, Point } from '../../units/quantity.ts'
import type { EscapePlan, MainStart } from '../escape.ts'
import type { Segment } from './exactDistance.ts'
import { toGrid } from './gridUnits.ts'
import { keepOutOwner, ownersOf } from './owners.ts'
import type { Owner, Shape, ShapeKind } from './shape.ts'

/** The parts of a plan that are copper. */
export interface PlanCopper extends Pick<EscapePlan, 'routes' | 'supplies' | 'dogBones'> {
  /** Beginnings of main routes, with what their necks run on before; left out: none. */
  readonly mains?: readonly MainStart[]
}

type Line = Pick<MainStart, 'path' | 'width'>

/** Places at which the same holes stand below one another, joined to their nets on the same layer. */
interface Barrels {
  readonly vias: readonly ViaType[]
  /** Layer on which the last of the holes is joined. */
  readonly joinedOn: number
  readonly places: { readonly owner: Owner; readonly at: Segment }[]
}

/** What a hole shows on one layer. */
interface Disc {
  readonly kind: 'via pad' | 'hole'
  readonly diameter: Metres
}

/** Draws the finished plan, layer by layer. Throws RangeError where the plan names a ball or a via that does not exist. */
export class Drawing {
  private readonly board: Board
  private readonly pack: Package
  private readonly landLayer: number
  private readonly owners: ReadonlyMap<string, Owner>
  private readonly barrels: readonly Barrels[]
  private readonly traces: ReadonlyMap<number, readonly Shape[]>
  private readonly onLandLayer: readonly Shape[]

  constructor(board: Board, pack: Package, plan: PlanCopper) {
    this.board = board
    this.pack = pack
    this.landLayer = pack.placement.side === 'top' ? 1 : board.stackup.copper.length
    this.owners = ownersOf(board, pack, plan)
    this.barrels = this.barrelsOf(plan)
    this.traces = this.tracesOf(plan)
    this.onLandLayer = [...this.lands(), ...this.dogBones(plan)]
  }

  shapesOn(layer: number): Shape[] {
    const onLands = layer === this.landLayer ? this.onLandLayer : []
    const shapes = [...this.tracesOn(layer), ...onLands, ...this.keepOuts(layer)]
    for (const { vias, joinedOn, places } of this.barrels) {
      for (const { kind, diameter } of discsOn(vias, joinedOn, layer, this.landLayer)) {
        const radius = toGrid(diameter / 2)
        for (const { owner, at } of places) shapes.push(shapeOf(kind, owner, at, radius))
      }
    }
    return shapes
  }

  /** Necks and beginnings of main routes. */
  tracesOn(layer: number): readonly Shape[] {
    return this.traces.get(layer) ?? []
  }

  private lands(): Shape[] {
    const { pack } = this
    const [land, opening] = [toGrid(pack.landDiameter / 2), toGrid(pack.maskOpening / 2)]
    const shapes: Shape[] = []
    for (const ball of pack.balls) {
      const owner = this.ownerOf(ball.name)
      const at = segment(ball, ball)
      shapes.push(shapeOf('land', owner, at, land), shapeOf('mask opening', owner, at, opening))
    }
    return shapes
  }

  private dogBones(plan: PlanCopper): Shape[] {
    return plan.dogBones.map(({ ball, from, to, width }) =>
      shapeOf('dog-bone', this.ownerOf(ball), segment(from, to), toGrid(width / 2)),
    )
  }

  private tracesOf({ routes, mains = [] }: PlanCopper): ReadonlyMap<number, Shape[]> {
    const traces = new Map<number, Shape[]>()
    const draw = (kind: ShapeKind, ball: string, layer: number, { path, width }: Line): void => {
      const owner = this.ownerOf(ball)
      const shapes = traces.get(layer) ?? []
      traces.set(layer, shapes)
      const radius = toGrid(width / 2)
      const ends = path.length === 1 ? path : path.slice(1)
      for (const [index, to] of ends.entries())
        shapes.push(shapeOf(kind, owner, segment(path[index] ?? to, to), radius))
    }
    const widths = new Map(routes.map(({ ball, width }) => [ball, width]))
    for (const route of routes) draw('trace', route.ball, route.exitLayer, route)
    for (const { ball, layer, runOn, ...main } of mains) {
      draw('main route', ball, layer, { path: runOn, width: widths.get(ball) ?? main.width })
      draw('main route', ball, layer, main)
    }
    return traces
  }

  private barrelsOf(plan: PlanCopper): readonly Barrels[] {
    const alike = new Map<string, Barrels>()
    const add = (ball: string, at: Point, names: string, joinedOn: number): void => {
      const key = `${joinedOn} ${names}`
      const place = { owner: this.ownerOf(ball), at: segment(at, at) }
      const known = alike.get(key)
      if (known === undefined) alike.set(key, { vias: viasOf(this.board, names), joinedOn, places: [place] })
      else known.places.push(place)
    }
    for (const { ball, via, path, exitLayer } of plan.routes) {
      const [at] = path
      if (at === undefined) throw new RangeError(`the route of ball ${ball} has no point`)
      if (via !== null) add(ball, at, via, exitLayer)
    }
    const places = new Map(plan.dogBones.map(({ ball, to }) => [ball, to]))
    for (const { ball, via, endLayer } of plan.supplies)
      add(ball, places.get(ball) ?? viaPlace(this.pack, ballOf(this.pack, ball)), via, endLayer)
    return [...alike.values()]
  }

  private keepOuts(layer: number): Shape[] {
    return this.pack.escape.keepOuts.flatMap(({ name, layers, low, high }, index): Shape[] => {
      if (!layers.includes(layer)) return []
      const owner = keepOutOwner(this.board, this.pack, name, index)
      return [shapeOf('keep-out', owner, segment(low, high), 0)]
    })
  }

  private ownerOf(ball: string): Owner {
    const owner = this.owners.get(ball)
    if (owner === undefined) throw new RangeError(`there is no ball of ${this.pack.name} called ${ball}`)
    return owner
  }
}

/**
 * A hole on every layer of its span; a pad at its ends, where the net is joined, and wherever pads are kept. Where it
 * is drilled back, the wider bore alone.
 */
function discsOn(vias: readonly ViaType[], joinedOn: number, layer: number, landLayer: number): Disc[] {
  return vias.flatMap((via): Disc[] => {
    const first = Math.min(via.firstLayer, via.lastLayer)
    const last = Math.max(via.firstLayer, via.lastLayer)
    if (layer < first || layer > last) return []
    const bore = boreOn(via, landLayer, joinedOn, layer)
    if (bore !== null) return [{ kind: 'hole', diameter: bore }]
    const hole: Disc = { kind: 'hole', diameter: via.drilledDiameter }
    const padded = layer === first || layer === last || layer === joinedOn
    if (!padded && via.unconnectedInnerPads !== 'kept') return [hole]
    return [{ kind: 'via pad', diameter: via.padDiameters[layer - first] ?? via.drilledDiameter }, hole]
  })
}

/** Diameter of the bore from the far side, on the layers beyond the one that the net is joined on; null elsewhere. */
function boreOn({ backdrill }: ViaType, landLayer: number, joinedOn: number, layer: number): Metres | null {
  if (backdrill === null) return null
  const beyond =
    landLayer === 1
      ? backdrill.from === 'bottom' && layer > joinedOn
      : backdrill.from === 'top' && layer < joinedOn
  return beyond ? backdrill.diameter : null
}

function viasOf(board: Board, names: string): readonly ViaType[] {
  return names.split(' + ').map((name) => viaOf(board, name))
}

/**
 * Where the via of a ball stands whose dog-bone the plan does not draw: in the land, or in the middle of the four places
 * around it that lie away from the middle of the grid. A stated via pitch spreads the places about the same centre.
 */
function viaPlace(pack: Package, ball: Ball): Point {
  if (pack.viaPlacement === 'in pad') return { x: ball.x, y: ball.y }
  const { pitch, viaPitch, rows, columns } = pack
  const left = 2 * ball.column < columns
  const upper = 2 * ball.row < rows
  return {
    x: (ball.x / pitch.x + (left ? -0.5 : 0.5)) * viaPitch.x,
    y: (ball.y / pitch.y + (upper ? 0.5 : -0.5)) * viaPitch.y,
  }
}

/** One literal for all: objects of one layout keep the comparison fast. */
function shapeOf(kind: ShapeKind, owner: Owner, { ax, ay, bx, by }: Segment, radius: number): Shape {
  return { kind, owner, ax, ay, bx, by, radius }
}

function segment(from: Point, to: Point): Segment {
  return { ax: toGrid(from.x), ay: toGrid(from.y), bx: toGrid(to.x), by: toGrid(to.y) }
}
