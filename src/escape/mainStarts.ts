import type { Board } from '../board/board.ts'
import { classOf, netOf } from '../board/lookup.ts'
import type { Net, NetClass } from '../board/nets.ts'
import type { Package } from '../board/packages.ts'
import { groupBy } from '../numerics/groupBy.ts'
import { simplifyPolyline } from '../numerics/simplifyPolyline.ts'
import { pathLength } from '../routes/pathLength.ts'
import type { Route } from '../routes/route.ts'
import type { Metres, Point } from '../units/quantity.ts'
import { isOuter } from './chainReach.ts'
import { figureOn } from './clearanceRules.ts'
import type { EscapePlan, MainStart, PackageEscape, WithoutMain } from './escape.ts'
import { type Exit, fanOut } from './fanOut.ts'
import { keptMains } from './keptMains.ts'

/** Of points that a bend does not need. */
const ON_ONE_LINE: Metres = 1e-12

/** Width of the main route of a class on a layer; null where it is not known. */
export type MainWidth = (netClass: NetClass, layer: number) => Metres | null

/**
 * Where the necks of a plan widen into their main routes: right where they end, or as soon after that as main routes of
 * their width have room beside each other, a gap of the fabricator or of the pair apart. Each is drawn as far as half a
 * pitch beyond the last of its side, and held to the clearance check together with the whole plan. A net whose main
 * width is not known, or whose start would fail the check, gets none, and is told with the reason. Where main routes lead
 * from there is not planned. The plan's necks are as long as all that takes.
 */
export function withMains(
  board: Board,
  pack: Package,
  plan: EscapePlan,
  mainWidth: MainWidth,
): Pick<PackageEscape, 'mains' | 'withoutMain'> & { readonly plan: EscapePlan } {
  const sides = groupBy(plan.routes, ({ exitLayer, leaves }) => `${exitLayer} ${leaves}`)
  const starts = [...sides.values()].flatMap((routes) => startsOf(board, pack, routes, mainWidth))
  const { kept, faults } = keptMains(board, pack, plan, starts)
  const begun = new Set(kept.map(({ ball }) => ball))
  const withoutMain = plan.routes.flatMap(({ ball, net, exitLayer: layer }): WithoutMain[] => {
    if (begun.has(ball)) return []
    const fault = faults.get(ball) ?? null
    return [{ ball, net, layer, reason: fault === null ? 'no width' : 'too near', fault }]
  })
  return { plan: withRunOns(plan, kept), mains: kept, withoutMain }
}

interface Leaving {
  readonly route: Route
  readonly net: Net
  readonly netClass: NetClass
  /** End of the neck, and its place along the side. */
  readonly end: Point
  readonly place: Metres
  readonly main: Metres | null
}

function startsOf(board: Board, pack: Package, routes: readonly Route[], mainWidth: MainWidth): MainStart[] {
  const leaving = routes
    .flatMap((route): Leaving[] => {
      const end = route.path.at(-1)
      if (end === undefined) return []
      const net = netOf(board, route.net)
      const netClass = classOf(board, net)
      const place = isAcross(route) ? end.x : end.y
      return [{ route, net, netClass, end, place, main: mainWidth(netClass, route.exitLayer) }]
    })
    .toSorted((a, b) => a.place - b.place)
  const exits = leaving.map((own, index): Exit => {
    const next = leaving[index + 1] ?? own
    return {
      place: own.place,
      necksApart: (own.route.width + next.route.width) / 2 + gapBetween(board, own, next, 'neck'),
      mainsApart: (widthOf(own) + widthOf(next)) / 2 + gapBetween(board, own, next, 'main'),
    }
  })
  const runs = fanOut(exits)
  const reach = runs.reduce(
    (most, { straight, sideways }) => Math.max(most, straight + Math.abs(sideways)),
    0,
  )
  const drawn = reach + Math.min(pack.pitch.x, pack.pitch.y) / 2
  return leaving.flatMap(({ route, end, main }, index): MainStart[] => {
    const run = runs[index]
    if (main === null || run === undefined) return []
    const at = (along: Metres, outwards: Metres): Point => placed(route, end, along, outwards)
    const { straight, sideways, outwards } = run
    const from = at(sideways, outwards)
    const bends = [end, at(0, straight), at(sideways, straight + Math.abs(sideways)), from]
    const runOn = outwards === 0 ? [] : simplifyPolyline(bends, ON_ONE_LINE)
    return [
      {
        ball: route.ball,
        layer: route.exitLayer,
        runOn,
        runOnLength: pathLength(runOn),
        width: main,
        path: [from, at(sideways, drawn)],
      },
    ]
  })
}

/** True where the side runs along x. */
function isAcross({ leaves }: Route): boolean {
  return leaves === 'top' || leaves === 'bottom'
}

function placed(route: Route, { x, y }: Point, along: Metres, outwards: Metres): Point {
  const away = route.leaves === 'top' || route.leaves === 'right' ? outwards : 0 - outwards
  return isAcross(route) ? { x: x + along, y: y + away } : { x: x + away, y: y + along }
}

function widthOf({ route, main }: Leaving): Metres {
  return main ?? route.width
}

function gapBetween(board: Board, own: Leaving, next: Leaving, stretch: 'neck' | 'main'): Metres {
  const { exitLayer, gap } = own.route
  const least = figureOn(isOuter(board, exitLayer), board.fabrication.traceGap)
  if (own.net.partner === next.net.name && gap !== null) {
    return stretch === 'neck' ? gap : (own.netClass.main.gap ?? gap)
  }
  return Math.max(least, own.netClass.neck.gap ?? 0, next.netClass.neck.gap ?? 0)
}

/** The plan with necks as long as it takes to make room for their main routes. */
function withRunOns(plan: EscapePlan, mains: readonly MainStart[]): EscapePlan {
  const runOns = new Map(mains.flatMap(({ ball, runOn }) => (runOn.length > 0 ? [[ball, runOn]] : [])))
  if (runOns.size === 0) return plan
  const routes = plan.routes.map((route) => longer(route, runOns.get(route.ball) ?? []))
  const layers = plan.layers.map((layer) => {
    if (layer.longestNeck === null) return layer
    const own = routes.filter(({ exitLayer }) => exitLayer === layer.layer)
    return { ...layer, longestNeck: own.reduce((most, { neckLength }) => Math.max(most, neckLength), 0) }
  })
  return { ...plan, routes, layers }
}

function longer(route: Route, runOn: readonly Point[]): Route {
  if (runOn.length === 0) return route
  const more = pathLength(runOn)
  const { stretches, uncoupledLength } = route
  const last = stretches.at(-1)
  return {
    ...route,
    path: [...route.path, ...runOn.slice(1)],
    neckLength: route.neckLength + more,
    // Where a pair makes room for its main route its traces part.
    stretches:
      last === undefined || last.coupled
        ? [...stretches, { coupled: false, length: more, beside: [] }]
        : [...stretches.slice(0, -1), { ...last, length: last.length + more }],
    uncoupledLength: uncoupledLength === null ? null : uncoupledLength + more,
  }
}
