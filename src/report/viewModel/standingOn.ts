import type { Board } from '../../board/board.ts'
import type { Ball, Package } from '../../board/packages.ts'
import type { ViaType } from '../../board/vias.ts'
import type { EscapePlan } from '../../escape/escape.ts'
import type { Metres, Point } from '../../units/quantity.ts'
import type { BreakoutMapSpec, Obstacle } from '../figures/breakoutMap.ts'

type Standing = Pick<BreakoutMapSpec, 'obstacles' | 'starts' | 'dogBones' | 'obstacleName'>

/** The holes under one ball, from its land inwards. */
interface Hole {
  readonly ball: Ball
  readonly at: Point
  readonly pieces: readonly ViaType[]
  /** Layer on which the net leaves or reaches its plane. */
  readonly endLayer: number
}

/**
 * The rounds that stand on one layer of a package: lands where it is soldered, and vias wherever a hole of the plan
 * passes. Those where a route of the layer begins are told from those it has to pass.
 */
export function standingOn(layer: number, pack: Package, plan: EscapePlan, board: Board): Standing {
  const landLayer = pack.placement.side === 'top' ? 1 : board.stackup.copper.length
  const holes = holesOf(pack, plan, board)
  const onLand = layer === landLayer
  const begins = new Set(plan.routes.filter((route) => route.exitLayer === layer).map((route) => route.ball))
  const beside = pack.viaPlacement === 'dog-bone'
  const shown = onLand ? holes.filter(({ ball }) => !isOutermost(ball, pack)) : holes
  const vias = shown.flatMap((hole) => viaOn(layer, hole))
  const lands = onLand
    ? pack.balls.map((ball) => ({ ball, round: { at: ball, diameter: pack.landDiameter } }))
    : []
  // A via in its land is hidden by it; beside a land it stands in the way as well.
  const rounds = onLand && !beside ? lands : [...lands, ...vias]
  return {
    starts: rounds.filter(({ ball }) => begins.has(ball.name)).map(({ round }) => round),
    obstacles: rounds.filter(({ ball }) => !begins.has(ball.name)).map(({ round }) => round),
    dogBones: onLand && beside ? shown.map(({ ball, at }) => [ball, at] as const) : [],
    obstacleName: onLand ? (beside ? 'lands and vias' : 'lands') : 'vias and holes',
  }
}

/**
 * On the layer of the lands the plan leaves the vias of the outermost row to stand wherever the necks beside them
 * leave room: where that is, it does not say.
 */
function isOutermost({ row, column }: Ball, { rows, columns }: Package): boolean {
  return row === 0 || column === 0 || row === rows - 1 || column === columns - 1
}

/** Every hole that the plan drills: under each signal ball that leaves on another layer, and under the supplies. */
function holesOf(pack: Package, plan: EscapePlan, board: Board): Hole[] {
  const types = new Map(board.vias.map((via) => [via.name, via]))
  const piecesOf = (names: string): ViaType[] => names.split(' + ').flatMap((name) => types.get(name) ?? [])
  const balls = new Map(pack.balls.map((ball) => [ball.name, ball]))
  const signals = plan.routes.flatMap(({ ball: name, via, path, exitLayer }) => {
    const ball = balls.get(name)
    if (ball === undefined || via === null) return []
    return [{ ball, at: path[0] ?? placeBeside(ball, pack), pieces: piecesOf(via), endLayer: exitLayer }]
  })
  const supplies = plan.supplies.flatMap(({ ball: name, via, endLayer }) => {
    const ball = balls.get(name)
    return ball === undefined ? [] : [{ ball, at: placeBeside(ball, pack), pieces: piecesOf(via), endLayer }]
  })
  return [...signals, ...supplies]
}

/** The round of a hole on a layer that it passes: its pad where one stands there, else the bare hole. */
function viaOn(layer: number, { ball, at, pieces, endLayer }: Hole): { ball: Ball; round: Obstacle }[] {
  const diameters = pieces
    .filter((via) => layer >= via.firstLayer && layer <= via.lastLayer)
    .map((via) => diameterOn(layer, via, endLayer))
  return diameters.length === 0 ? [] : [{ ball, round: { at, diameter: Math.max(...diameters) } }]
}

function diameterOn(layer: number, via: ViaType, endLayer: number): Metres {
  const joined = layer === via.firstLayer || layer === via.lastLayer || layer === endLayer
  const pad = via.padDiameters[layer - via.firstLayer]
  return (joined || via.unconnectedInnerPads === 'kept') && pad !== undefined ? pad : via.drilledDiameter
}

/** In its land, or beside it like the dog-bones of the plan: half a via pitch along both axes, away from the middle. */
function placeBeside(ball: Ball, pack: Package): Point {
  if (pack.viaPlacement === 'in pad') return ball
  const { pitch, viaPitch } = pack
  const right = ball.column < pack.columns / 2 ? -1 : 1
  const down = ball.row < pack.rows / 2 ? -1 : 1
  return {
    x: (ball.x * viaPitch.x) / pitch.x + (right * viaPitch.x) / 2,
    y: (ball.y * viaPitch.y) / pitch.y - (down * viaPitch.y) / 2,
  }
}
