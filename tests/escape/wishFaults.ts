import type { Board } from '../../src/board/board.ts'
import type { KeepOut } from '../../src/board/escapeWishes.ts'
import type { Package } from '../../src/board/packages.ts'
import type { EscapePlan } from '../../src/escape/escape.ts'
import { distanceBetweenPaths } from '../../src/routes/pathDistance.ts'
import type { Route } from '../../src/routes/route.ts'
import type { Point } from '../../src/units/quantity.ts'

/** The comparison tolerance of the boards, and rounding. */
const SLACK = 0.501e-6

/** Where a plan breaks a wish that must hold: layers left out, sides, keep-outs, gaps between groups. Looks at copper alone. */
export function wishFaults(board: Board, pack: Package, plan: EscapePlan): string[] {
  return [
    ...layerFaults(pack, plan),
    ...plan.routes.flatMap((route) => [...sideFaults(pack, route), ...areaFaults(pack, route)]),
    ...apartFaults(board, pack, plan),
  ]
}

function layerFaults({ escape }: Package, { routes, layers }: EscapePlan): string[] {
  const { layerOrder } = escape
  if (layerOrder.length === 0) return []
  const shut = routes.filter(({ exitLayer }) => !layerOrder.includes(exitLayer))
  const filled = layers.map(({ layer }) => layer).filter((layer) => layerOrder.includes(layer))
  const asked = layerOrder.filter((layer) => filled.includes(layer))
  return [
    ...shut.map(({ ball, exitLayer }) => `${ball} leaves on layer ${exitLayer}, which is left out`),
    ...(filled.join() === asked.join() ? [] : [`layers in order ${filled.join()}, not ${asked.join()}`]),
  ]
}

/** A net leaves through a side where it ends further out than every ball. */
function sideFaults({ escape, balls }: Package, { ball, net, path, leaves }: Route): string[] {
  const side = escape.exitSides.get(net)
  const end = path.at(-1)
  if (side === undefined || end === undefined) return []
  const axis = side === 'left' || side === 'right' ? 'x' : 'y'
  const sign = side === 'left' || side === 'bottom' ? -1 : 1
  const outermost = balls.reduce((most, at) => Math.max(most, sign * at[axis]), -Infinity)
  const outside = sign * end[axis] > outermost
  return leaves === side && outside ? [] : [`${ball} leaves ${leaves}, not ${side}`]
}

function areaFaults({ escape }: Package, { ball, exitLayer, path, width }: Route): string[] {
  const areas = escape.keepOuts.filter(({ layers }) => layers.includes(exitLayer))
  return areas.flatMap((area) => {
    const touched = path.some((to, index) => {
      const from = path[index - 1] ?? to
      return toRectangle(from, to, area) < width / 2 - SLACK
    })
    return touched ? [`${ball} touches ${area.name}`] : []
  })
}

/**
 * Distance from a segment to a filled rectangle. That to a rectangle is convex along a line, so the interval in which
 * its least value lies is cut down by a third at a time.
 */
function toRectangle(from: Point, to: Point, { low, high }: KeepOut): number {
  const at = (share: number): number => {
    const x = from.x + (to.x - from.x) * share
    const y = from.y + (to.y - from.y) * share
    return Math.hypot(Math.max(low.x - x, 0, x - high.x), Math.max(low.y - y, 0, y - high.y))
  }
  let [first, last] = [0, 1]
  for (let step = 0; step < 60; step += 1) {
    const third = (last - first) / 3
    if (at(first + third) <= at(last - third)) last -= third
    else first += third
  }
  return Math.min(at(0), at(1), at((first + last) / 2))
}

function apartFaults({ nets }: Board, { escape }: Package, { routes }: EscapePlan): string[] {
  const groupOf = new Map(nets.map(({ name, matchGroup }) => [name, matchGroup]))
  return escape.apart.flatMap(({ groups: [one, other], gap }) => {
    const members = (group: string): Route[] => routes.filter(({ net }) => groupOf.get(net) === group)
    return members(one).flatMap((mine) =>
      members(other)
        .filter(({ exitLayer }) => exitLayer === mine.exitLayer)
        .filter((yours) => {
          const clear = distanceBetweenPaths(mine.path, yours.path) - (mine.width + yours.width) / 2
          return clear < gap - SLACK
        })
        .map((yours) => `${mine.ball} and ${yours.ball} are nearer than ${gap} m`),
    )
  })
}
