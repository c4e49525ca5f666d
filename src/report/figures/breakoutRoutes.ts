import { INK } from '../../charts/ink.ts'
import { circle, group, polyline } from '../../charts/marks.ts'
import type { Place } from '../../charts/marks.ts'
import { element, escapeText } from '../../charts/svg.ts'
import { formatLength } from '../../units/format.ts'
import type { MainStart } from '../../escape/escape.ts'
import type { Route } from '../../routes/route.ts'
import { groupBy } from '../viewModel/table.ts'
import { roundOf, roundStyle } from './breakoutRounds.ts'
import type { BreakoutScene, BreakoutView } from './breakoutView.ts'

/** Id of one net's route in its map: what the tables of the report link to. */
export function routeAnchor(map: string, ball: string): string {
  return `${map}-${ball.toLowerCase().replace(/[^a-z0-9]+/g, '-')}`
}

/** No trace is drawn thinner: a print would lose it. */
export const THINNEST = 0.75

/** True for a net of a pair, whether or not it runs beside its partner. */
export function isPair({ net, gap }: Route, { partnerOf }: BreakoutScene): boolean {
  return gap !== null || partnerOf(net) !== null
}

/** Ink of a trace: pairs are darker, which a grey print keeps. */
export function traceInk(ofPair: boolean): string {
  return ofPair ? INK.text : INK.metal
}

/**
 * Every route with the rounds of its ball, as wide as its copper, in a group of its own that bears its net's name:
 * read out over it, and the target of a link.
 */
export function routeGroups(scene: BreakoutScene, view: BreakoutView): string[] {
  const rounds = new Map<string, string[]>()
  for (const each of scene.layer.standing) {
    if (!scene.begins.has(each.ball)) continue
    rounds.set(each.ball, [...(rounds.get(each.ball) ?? []), roundOf(each, view)])
  }
  return scene.routes.map((route) =>
    element(
      'g',
      { id: routeAnchor(scene.id, route.ball), class: 'route' },
      element('title', {}, escapeText(routeText(route, scene))),
      ...copperOf(route, scene).map(({ path, width }) =>
        polyline(path.map(view.place), {
          stroke: traceInk(isPair(route, scene)),
          'stroke-width': Math.max(width * view.scale, THINNEST),
          'stroke-linejoin': 'round',
        }),
      ),
      group(roundStyle('begins here', view.cell), rounds.get(route.ball) ?? []),
    ),
  )
}

/** Neck, and beginning of the main route where it is known, each as wide as it is. */
function copperOf(route: Route, { mainOf }: BreakoutScene): Pick<MainStart, 'path' | 'width'>[] {
  const main = mainOf.get(route.ball)
  return main === undefined ? [route] : [route, main]
}

function routeText(route: Route, { layerName, unit }: BreakoutScene): string {
  const length = (metres: number): string => formatLength(metres, unit)
  const { net, ball, exitLayer, leaves, width, neckLength, uncoupledLength } = route
  const apart = uncoupledLength === null ? '' : `, ${length(uncoupledLength)} of it uncoupled`
  return `${net}, ball ${ball}: leaves on ${layerName(exitLayer)}, ${leaves}; ${length(width)} wide, neck ${length(neckLength)}${apart}`
}

/** How far outside the last point of a trace the mark of its pair lies. */
export const TIE = 3.5

/** Ends of a pair farther apart than this share of the pitch are not side by side. */
const SIDE_BY_SIDE = 1.1

/** Joins the two ends of each pair that leaves side by side with no other trace between, outside the copper. */
export function pairTies(scene: BreakoutScene, view: BreakoutView): string {
  const sides = groupBy(scene.routes, ({ leaves }) => leaves)
  const ties = sides.flatMap((side) => {
    const ends = side.map((route) => ({ net: route.net, at: outside(route, scene, view, TIE) }))
    // Along one side only one of the two changes.
    ends.sort((one, other) => one.at.x + one.at.y - other.at.x - other.at.y)
    return ends.slice(1).flatMap((end, index) => {
      const before = ends[index]
      if (before === undefined || scene.partnerOf(end.net) !== before.net) return []
      const apart = Math.hypot(end.at.x - before.at.x, end.at.y - before.at.y)
      if (apart > SIDE_BY_SIDE * view.cell) return []
      const places = [before.at, end.at]
      return [
        polyline(places, { stroke: INK.text, 'stroke-width': 1 }),
        ...places.map((place) => circle(place, 1.6)),
      ]
    })
  })
  return group({ fill: INK.text, class: 'ties' }, ties)
}

/** A place beyond what is drawn of a route, square to the side it leaves through. */
export function outside(route: Route, { mainOf }: BreakoutScene, view: BreakoutView, by: number): Place {
  const end = mainOf.get(route.ball)?.path.at(-1) ?? route.path.at(-1)
  const { x, y } = view.place(end ?? { x: 0, y: 0 })
  switch (route.leaves) {
    case 'top':
      return { x, y: y - by }
    case 'bottom':
      return { x, y: y + by }
    case 'left':
      return { x: x - by, y }
    case 'right':
      return { x: x + by, y }
  }
}
