import type { Board } from '../../board/board.ts'
import type { Ball, Package } from '../../board/packages.ts'
import type { ViaType } from '../../board/vias.ts'
import type { EscapePlan } from '../../escape/escape.ts'
import type { Route } from '../../routes/route.ts'
import type { Metres, Point } from '../../units/quantity.ts'
import type { BreakoutMapSpec, Obstacle } from '../figures/breakoutMap.ts'

/**
 * The rounds that stand on one layer of a package: lands where the package is soldered, vias elsewhere. Those
 * where a route of the layer begins are told from those it has to pass.
 */
export function standingOn(
  layer: number,
  pack: Package,
  plan: EscapePlan,
  board: Board,
): Pick<BreakoutMapSpec, 'obstacles' | 'starts' | 'obstacleName'> {
  const routes = new Map(plan.routes.map((route) => [route.ball, route]))
  const landLayer = pack.placement.side === 'top' ? 1 : board.stackup.copper.length
  const begins = (ball: Ball): boolean => routes.get(ball.name)?.exitLayer === layer
  if (layer === landLayer) {
    const land = (ball: Ball): Obstacle => ({ at: ball, diameter: pack.landDiameter })
    return {
      starts: pack.balls.filter(begins).map(land),
      obstacles: pack.balls.filter((ball) => !begins(ball)).map(land),
      obstacleName: 'lands',
    }
  }
  const vias = new Map(board.vias.map((via) => [via.name, via]))
  const standing = pack.balls.flatMap((ball) => {
    const route = routes.get(ball.name)
    const via = viaOf(ball, route, pack, vias)
    const reaches = via !== undefined && layer >= via.firstLayer && layer <= via.lastLayer
    if (!reaches || route?.via === null) return []
    // A blind chain ends where its net leaves.
    if (route !== undefined && via.kind !== 'through' && !between(layer, landLayer, route.exitLayer))
      return []
    return [{ ball, round: { at: placeOf(ball, route, pack), diameter: diameterOn(layer, via) } }]
  })
  return {
    starts: standing.filter(({ ball }) => begins(ball)).map(({ round }) => round),
    obstacles: standing.filter(({ ball }) => !begins(ball)).map(({ round }) => round),
    obstacleName: 'vias',
  }
}

function viaOf(
  ball: Ball,
  route: Route | undefined,
  pack: Package,
  vias: ReadonlyMap<string, ViaType>,
): ViaType | undefined {
  if (ball.use === 'unused') return undefined
  const names = (route?.via ?? pack.via).split(' + ')
  return names.map((name) => vias.get(name)).find((via) => via !== undefined)
}

function between(layer: number, one: number, other: number): boolean {
  return layer >= Math.min(one, other) && layer <= Math.max(one, other)
}

function diameterOn(layer: number, via: ViaType): Metres {
  return via.padDiameters[layer - via.firstLayer] ?? via.drilledDiameter
}

/** A route begins at its via; other dog-bones lead half a via pitch away from the middle, like those of the plan. */
function placeOf(ball: Ball, route: Route | undefined, pack: Package): Point {
  const start = route?.path[0]
  if (start !== undefined) return start
  if (pack.viaPlacement === 'in pad') return ball
  const { pitch, viaPitch } = pack
  const right = ball.column < pack.columns / 2 ? -1 : 1
  const down = ball.row < pack.rows / 2 ? -1 : 1
  return {
    x: (ball.x * viaPitch.x) / pitch.x + (right * viaPitch.x) / 2,
    y: (ball.y * viaPitch.y) / pitch.y - (down * viaPitch.y) / 2,
  }
}
