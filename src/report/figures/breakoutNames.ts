import type { ExitSide } from '../../board/escapeWishes.ts'
import { INK } from '../../charts/ink.ts'
import { group, label, polyline } from '../../charts/marks.ts'
import type { Place } from '../../charts/marks.ts'
import { spreadLabels } from '../../charts/spreadLabels.ts'
import type { Route } from '../../routes/route.ts'
import { outside, TIE } from './breakoutRoutes.ts'
import type { BreakoutScene, BreakoutView } from './breakoutView.ts'

/** Type of the names outside the array; smaller where the exits stand close, and left out where they stand too close. */
const NAME = { most: 8, least: 4.5 }
/** Letters of a ball's name are as wide as this share of their size. */
const LETTER = 0.62
const AWAY = TIE + 4

const SIDES: readonly ExitSide[] = ['top', 'bottom', 'left', 'right']

/** Room that the names of the balls need outside the ends of their traces. */
export function nameRoom({ routes }: Pick<BreakoutScene, 'routes'>): number {
  const longest = routes.reduce((most, { ball }) => Math.max(most, ball.length), 0)
  return longest === 0 ? 4 : AWAY + longest * NAME.most * LETTER + 3
}

/** At the end of each trace the name of its ball; bold for nets of priority. */
export function exitNames(scene: BreakoutScene, view: BreakoutView): string[] {
  const size = nameSize(scene, view)
  if (size === null) return []
  return SIDES.flatMap((side) => {
    const own = scene.routes.filter(({ leaves }) => leaves === side)
    return own.length === 0 ? [] : [sideNames(own, side, size, scene, view)]
  })
}

/** Size of type that every side has room for; null where there is none. */
export function nameSize(scene: BreakoutScene, view: BreakoutView): number | null {
  const sizes = SIDES.map((side) => {
    const count = scene.routes.filter(({ leaves }) => leaves === side).length
    const room = isLevel(side) ? view.right - view.left : view.bottom - view.top
    return count === 0 ? NAME.most : room / count / SPACING
  })
  const size = Math.min(NAME.most, ...sizes)
  return size < NAME.least ? null : Math.floor(size * 4) / 4
}

const SPACING = 1.08

/** Top and bottom run level. */
function isLevel(side: ExitSide): boolean {
  return side === 'top' || side === 'bottom'
}

function sideNames(
  routes: readonly Route[],
  side: ExitSide,
  size: number,
  scene: BreakoutScene,
  view: BreakoutView,
): string {
  const level = isLevel(side)
  const along = (place: Place): number => (level ? place.x : place.y)
  const ends = routes
    .map((route) => ({
      route,
      from: outside(route, scene, view, 1),
      to: outside(route, scene, view, AWAY - 2),
    }))
    .toSorted((a, b) => along(a.to) - along(b.to))
  const [low, high] = level ? [view.left, view.right] : [view.top, view.bottom]
  const places = spreadLabels(
    ends.map(({ to }) => along(to)),
    size * SPACING,
    low + size / 2,
    high - size / 2,
  )
  const first = new Set(scene.package.escape.priority.flat())
  const marks = ends.map(({ route, from, to }, index) => {
    const at = places[index] ?? along(to)
    const spot = level ? { x: at, y: to.y } : { x: to.x, y: at }
    const lead = Math.abs(at - along(to)) > size / 4 ? [polyline([from, spot], LEAD)] : []
    return [...lead, nameAt(route.ball, spot, side, size, first.has(route.net))]
  })
  return group({ 'font-size': size, fill: INK.text, class: 'exits' }, marks.flat())
}

const LEAD = { stroke: INK.rule, 'stroke-width': 0.4 }

/** Level at the left and right, upright above and below. */
function nameAt(ball: string, spot: Place, side: ExitSide, size: number, priority: boolean): string {
  const weight = priority ? { 'font-weight': 'bold' } : {}
  const start = side === 'right' || side === 'top' ? 'start' : 'end'
  const drop = size * 0.35
  if (!isLevel(side)) {
    const x = spot.x + (side === 'right' ? 1.5 : -1.5)
    return label(ball, { x, y: spot.y + drop }, { 'text-anchor': start, ...weight })
  }
  const at = { x: spot.x + drop, y: spot.y + (side === 'top' ? -1.5 : 1.5) }
  const turn = `rotate(-90 ${Math.round(at.x * 100) / 100} ${Math.round(at.y * 100) / 100})`
  return label(ball, at, { 'text-anchor': start, transform: turn, ...weight })
}
