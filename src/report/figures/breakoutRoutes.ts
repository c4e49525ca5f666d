import { INK } from '../../charts/ink.ts'
import { circle, group, polyline } from '../../charts/marks.ts'
import type { Place } from '../../charts/marks.ts'
import { element, escapeText } from '../../charts/svg.ts'
import { formatLength } from '../../units/format.ts'
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
      polyline(route.path.map(view.place), {
        stroke: traceInk(isPair(route, scene)),
        'stroke-width': Math.max(route.width * view.scale, THINNEST),
        'stroke-linejoin': 'round',
      }),
      group(roundStyle('begins here', view.cell), rounds.get(route.ball) ?? []),
    ),
  )
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
    const ends = side.map((route) => ({ net: route.net, at: outside(route, view, TIE) }))
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

/** A place beyond the end of a route, square to the side it leaves through. */
export function outside({ path, leaves }: Route, view: BreakoutView, by: number): Place {
  const { x, y } = view.place(path.at(-1) ?? { x: 0, y: 0 })
  switch (leaves) {
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
