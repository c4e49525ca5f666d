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

/** Holes of one net below one another, and the layer on which the last of them is joined. */
interface Barrel {
  readonly owner: Owner
  readonly place: Segment
  readonly vias: readonly ViaType[]
  readonly joinedOn: number
}

/** Draws the finished plan, layer by layer. Throws RangeError where the plan names a ball or a via that does not exist. */
export class Drawing {
  private readonly board: Board
  private readonly pack: Package
  private readonly landLayer: number
  private readonly owners: ReadonlyMap<string, Owner>
  private readonly barrels: readonly Barrel[]
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
    const shapes = [...(this.traces.get(layer) ?? []), ...onLands, ...this.keepOuts(layer)]
    for (const barrel of this.barrels) pushBarrel(shapes, barrel, layer, this.landLayer)
    return shapes
  }

  private lands(): Shape[] {
    const { pack } = this
    return pack.balls.flatMap((ball) => {
      const owner = this.ownerOf(ball.name)
      return [
        disc('land', owner, ball, pack.landDiameter),
        disc('mask opening', owner, ball, pack.maskOpening),
      ]
    })
  }

  private dogBones(plan: PlanCopper): Shape[] {
    return plan.dogBones.map(({ ball, from, to, width }) =>
      shapeOf('dog-bone', this.ownerOf(ball), segment(from, to), width),
    )
  }

  private tracesOf({ routes, mains = [] }: PlanCopper): ReadonlyMap<number, Shape[]> {
    const traces = new Map<number, Shape[]>()
    const draw = (kind: ShapeKind, ball: string, layer: number, { path, width }: Line): void => {
      const owner = this.ownerOf(ball)
      const shapes = traces.get(layer) ?? []
      traces.set(layer, shapes)
      const ends = path.length === 1 ? path : path.slice(1)
      for (const [index, to] of ends.entries())
        shapes.push(shapeOf(kind, owner, segment(path[index] ?? to, to), width))
    }
    const widths = new Map(routes.map(({ ball, width }) => [ball, width]))
    for (const route of routes) draw('trace', route.ball, route.exitLayer, route)
    for (const { ball, layer, runOn, ...main } of mains) {
      draw('main route', ball, layer, { path: runOn, width: widths.get(ball) ?? main.width })
      draw('main route', ball, layer, main)
    }
    return traces
  }

  private barrelsOf(plan: PlanCopper): Barrel[] {
    const viasOf = rememberedVias(this.board)
    const places = new Map(plan.dogBones.map(({ ball, to }) => [ball, to]))
    const signals = plan.routes.flatMap(({ ball, via, path, exitLayer }): Barrel[] => {
      const [at] = path
      if (at === undefined) throw new RangeError(`the route of ball ${ball} has no point`)
      return via === null
        ? []
        : [{ owner: this.ownerOf(ball), place: segment(at, at), vias: viasOf(via), joinedOn: exitLayer }]
    })
    const supplies = plan.supplies.map(({ ball, via, endLayer }): Barrel => {
      const at = places.get(ball) ?? viaPlace(this.pack, ballOf(this.pack, ball))
      return { owner: this.ownerOf(ball), place: segment(at, at), vias: viasOf(via), joinedOn: endLayer }
    })
    return [...signals, ...supplies]
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
function pushBarrel(shapes: Shape[], barrel: Barrel, layer: number, landLayer: number): void {
  const { owner, place, vias, joinedOn } = barrel
  for (const via of vias) {
    const first = Math.min(via.firstLayer, via.lastLayer)
    const last = Math.max(via.firstLayer, via.lastLayer)
    if (layer < first || layer > last) continue
    const bore = boreOn(via, landLayer, joinedOn, layer)
    if (bore !== null) {
      shapes.push(shapeOf('hole', owner, place, bore))
      continue
    }
    const padded = layer === first || layer === last || layer === joinedOn
    if (padded || via.unconnectedInnerPads === 'kept') {
      const diameter = via.padDiameters[layer - first] ?? via.drilledDiameter
      shapes.push(shapeOf('via pad', owner, place, diameter))
    }
    shapes.push(shapeOf('hole', owner, place, via.drilledDiameter))
  }
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

function rememberedVias(board: Board): (names: string) => readonly ViaType[] {
  const memory = new Map<string, readonly ViaType[]>()
  return (names) => {
    const known = memory.get(names)
    if (known !== undefined) return known
    const vias = names.split(' + ').map((name) => viaOf(board, name))
    memory.set(names, vias)
    return vias
  }
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

function disc(kind: ShapeKind, owner: Owner, at: Point, diameter: Metres): Shape {
  return shapeOf(kind, owner, segment(at, at), diameter)
}

/** One literal for all: objects of one layout keep the comparison fast. */
function shapeOf(kind: ShapeKind, owner: Owner, { ax, ay, bx, by }: Segment, width: Metres): Shape {
  return { kind, owner, ax, ay, bx, by, radius: toGrid(width / 2) }
}

function segment(from: Point, to: Point): Segment {
  return { ax: toGrid(from.x), ay: toGrid(from.y), bx: toGrid(to.x), by: toGrid(to.y) }
}
