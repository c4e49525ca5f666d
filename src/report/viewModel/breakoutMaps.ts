import type { Board } from '../../board/board.ts'
import type { EscapePlan, PackageEscape } from '../../escape/escape.ts'
import type { Route } from '../../routes/route.ts'
import { breakoutMap } from '../figures/breakoutMap.ts'
import { routeAnchor } from '../figures/breakoutRoutes.ts'
import { chosenPlan } from './context.ts'
import { slug } from './section.ts'

/** Id of the map of one layer of a package. */
export function mapId(pack: string, layer: number): string {
  return `map-${slug(pack)}-${layer}`
}

/**
 * The plan as it may be drawn: without the nets whose traces come nearer to something than the rules allow. There are
 * none, unless the planner is at fault; what is wrong is then said, and never drawn.
 */
export function drawablePlan(plan: EscapePlan): EscapePlan {
  const wrong = new Set(plan.check.faults.flatMap(({ ball, otherBall }) => [ball, otherBall]))
  return wrong.size === 0 ? plan : { ...plan, routes: plan.routes.filter(({ ball }) => !wrong.has(ball)) }
}

/** The map of one exit layer. */
export interface LayerMap {
  readonly id: string
  readonly layer: number
  readonly svg: string
}

/** A map for each layer on which nets of the package leave, by the plan with the vias that it really has. */
export function breakoutMaps(board: Board, escape: PackageEscape): LayerMap[] {
  const pack = board.packages.find(({ name }) => name === escape.package)
  const whole = chosenPlan(escape)
  if (pack === undefined || whole === undefined) return []
  const plan = drawablePlan(whole)
  const names = new Map(board.stackup.copper.map(({ number, name }) => [number, name]))
  const partners = new Map(board.nets.map(({ name, partner }) => [name, partner]))
  return plan.layers
    .filter(({ escaped }) => escaped > 0)
    .map((layer) => {
      const id = mapId(pack.name, layer.layer)
      const svg = breakoutMap({
        id,
        package: pack,
        plan,
        layer,
        mains: escape.mains,
        layerName: (number) => names.get(number) ?? `layer ${number}`,
        partnerOf: (net) => partners.get(net) ?? null,
        unit: board.displayUnit,
      })
      return { id, layer: layer.layer, svg }
    })
}

/** A route with the link to its place in the map of its layer. */
export interface MappedRoute {
  readonly route: Route
  readonly href: string
}

/** Every route that the maps draw, by package and ball: `U1 B4`. */
export function mappedRoutes(escapes: readonly PackageEscape[]): ReadonlyMap<string, MappedRoute> {
  return new Map(
    escapes.flatMap((escape) => {
      const plan = chosenPlan(escape)
      if (plan === undefined) return []
      return drawablePlan(plan).routes.map((route): [string, MappedRoute] => [
        `${route.package} ${route.ball}`,
        { route, href: `#${routeAnchor(mapId(escape.package, route.exitLayer), route.ball)}` },
      ])
    }),
  )
}
