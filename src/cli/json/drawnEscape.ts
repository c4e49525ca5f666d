import type { Board } from '../../board/board.ts'
import { ballOf, packageOf, viaOf } from '../../board/lookup.ts'
import type { Package } from '../../board/packages.ts'
import type {
  DogBone,
  EscapePlan,
  LayerPlan,
  PackageEscape,
  Standing,
  SupplyVia,
} from '../../escape/escape.ts'
import type { Metres, Point } from '../../units/quantity.ts'

type Route = EscapePlan['routes'][number]

/** One hole of a chain, with the layers it is drilled between and where it stands. */
export interface PlacedVia {
  readonly name: string
  readonly firstLayer: number
  readonly lastLayer: number
  readonly at: Point
}

/** Copper of one width on one layer. */
export interface Stretch {
  readonly part: 'dog-bone' | 'neck'
  readonly layer: number
  readonly width: Metres
  readonly path: readonly Point[]
}

/** A route with everything that a reader needs to draw it: the ball, its holes, and its copper by layer and width. */
export interface DrawnRoute extends Route {
  readonly ballAt: Point
  readonly vias: readonly PlacedVia[]
  readonly copper: readonly Stretch[]
}

export interface DrawnSupply extends SupplyVia {
  readonly vias: readonly PlacedVia[]
}

/** What stands alike on several layers, once. */
export interface StandingOnLayers extends Standing {
  /** Layers of the plan, in its order. */
  readonly layers: readonly number[]
}

export interface DrawnPlan extends Omit<EscapePlan, 'layers' | 'routes' | 'supplies'> {
  readonly layers: readonly Omit<LayerPlan, 'standing'>[]
  readonly standing: readonly StandingOnLayers[]
  readonly routes: readonly DrawnRoute[]
  readonly supplies: readonly DrawnSupply[]
}

export interface DrawnEscape extends Omit<PackageEscape, 'plans'> {
  readonly plans: readonly DrawnPlan[]
}

/**
 * A package's plans with the holes looked up and the copper of every net put together.
 *
 * Throws RangeError where a plan names a ball or a via that the board does not have.
 */
export function drawnEscape(board: Board, escape: PackageEscape): DrawnEscape {
  const pack = packageOf(board, escape.package)
  return { ...escape, plans: escape.plans.map((plan) => drawnPlan(board, pack, plan)) }
}

function drawnPlan(board: Board, pack: Package, plan: EscapePlan): DrawnPlan {
  const landLayer = pack.placement.side === 'top' ? 1 : board.stackup.copper.length
  const dogBones = new Map(plan.dogBones.map((bone) => [bone.ball, bone]))
  const landOf = (ball: string): Point => {
    const { x, y } = ballOf(pack, ball)
    return { x, y }
  }
  return {
    ...plan,
    layers: plan.layers.map(({ standing: _, ...layer }) => layer),
    standing: standingOnLayers(plan.layers),
    routes: plan.routes.map((route) => ({
      ...route,
      ballAt: landOf(route.ball),
      vias: placedVias(board, route.via, route.path[0] ?? landOf(route.ball)),
      copper: copperOf(route, route.via === null ? undefined : dogBones.get(route.ball), landLayer),
    })),
    supplies: plan.supplies.map((supply) => ({
      ...supply,
      vias: placedVias(board, supply.via, dogBones.get(supply.ball)?.to ?? landOf(supply.ball)),
    })),
  }
}

function standingOnLayers(layers: readonly LayerPlan[]): StandingOnLayers[] {
  const found = new Map<string, { readonly standing: Standing; readonly layers: number[] }>()
  for (const { layer, standing } of layers) {
    for (const each of standing) {
      const key = JSON.stringify([each.ball, each.kind, each.at.x, each.at.y, each.diameter, each.reach])
      const known = found.get(key)
      if (known === undefined) found.set(key, { standing: each, layers: [layer] })
      else known.layers.push(layer)
    }
  }
  return [...found.values()].map(({ standing, layers: on }) => ({ ...standing, layers: on }))
}

/** Names of holes that follow one another are joined by ` + `. */
function placedVias(board: Board, names: string | null, at: Point): PlacedVia[] {
  if (names === null) return []
  return names.split(' + ').map((name) => {
    const { firstLayer, lastLayer } = viaOf(board, name)
    return { name, firstLayer, lastLayer, at }
  })
}

function copperOf(route: Route, bone: DogBone | undefined, landLayer: number): Stretch[] {
  const { exitLayer, width, path } = route
  const neck: Stretch = { part: 'neck', layer: exitLayer, width, path }
  if (bone === undefined) return [neck]
  return [{ part: 'dog-bone', layer: landLayer, width: bone.width, path: [bone.from, bone.to] }, neck]
}
