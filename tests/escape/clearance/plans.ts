import type { EscapeWishes } from '../../../src/board/escapeWishes.ts'
import { NO_WISHES } from '../../../src/board/escapeWishes.ts'
import { checkPlan } from '../../../src/escape/clearance/checkPlan.ts'
import type { Board } from '../../../src/board/board.ts'
import type { Package } from '../../../src/board/packages.ts'
import type { PlanCopper } from '../../../src/escape/clearance/planCopper.ts'
import type { ClearanceFault, DogBone } from '../../../src/escape/escape.ts'
import type { Route } from '../../../src/routes/route.ts'
import type { Point } from '../../../src/units/quantity.ts'
import { boardOf, packageOf, um, via } from '../fixtures.ts'

/** Plans drawn by hand, in micrometres. */
export interface Scene {
  readonly board: Board
  readonly pack: Package
  readonly plan: PlanCopper
}

export type Places = readonly (readonly [number, number])[]

export const at = (x: number, y: number): Point => ({ x: um(x), y: um(y) })

export function trace(ball: string, layer: number, path: Places, change: Partial<Route> = {}): Route {
  return {
    net: ball,
    package: 'U1',
    ball,
    exitLayer: layer,
    via: null,
    path: path.map(([x, y]) => at(x, y)),
    neckLength: 0,
    dogBoneLength: 0,
    width: um(80),
    gap: null,
    viaDepth: 0,
    stubLength: 0,
    uncoupledLength: null,
    stretches: [],
    leaves: 'top',
    ring: 1,
    ...change,
  }
}

/** A trace along y at one x. */
export function upright(ball: string, layer: number, x: number, change: Partial<Route> = {}): Route {
  return trace(
    ball,
    layer,
    [
      [x, -700],
      [x, 900],
    ],
    change,
  )
}

export function bone(ball: string, from: readonly [number, number], to: readonly [number, number]): DogBone {
  return { ball, from: at(...from), to: at(...to), width: um(80) }
}

export function copperOf(...parts: (Route | DogBone)[]): PlanCopper {
  return {
    routes: parts.filter((part) => 'path' in part),
    dogBones: parts.filter((part) => 'from' in part),
    supplies: [],
  }
}

/** Three signal balls at x = −10, 0 and 10 mm: lands do not get in the way of what a test draws elsewhere. */
export const FAR = packageOf(['sss'], { pitch: { x: um(10_000), y: um(10_000) } })
export const [A, B] = ['0,0', '0,2']

export function faultsOf({ board, pack, plan }: Scene): readonly ClearanceFault[] {
  return checkPlan(board, pack, plan).faults
}

export function scene(plan: Scene['plan'], board: Partial<Board> = {}, pack = FAR): Scene {
  return { board: boardOf(pack, board), pack, plan }
}

export function wishing(wishes: Partial<EscapeWishes>, pack = FAR): typeof FAR {
  return { ...pack, escape: { ...NO_WISHES, ...wishes } }
}

/** Two traces of the given gap in um from edge to edge, each 80 um wide. */
export function twoTraces(gap: number, layer: number, board: Partial<Board>, ...coupled: number[]): Scene {
  const [mine, theirs] = coupled
  return scene(
    copperOf(
      upright(A, layer, 3000, { gap: mine === undefined ? null : um(mine) }),
      upright(B, layer, 3080 + gap, { gap: theirs === undefined ? null : um(theirs) }),
    ),
    board,
  )
}

/** A via of 450 um pad and 200 um drill at x = 3 mm that leaves to the left, and a trace to its right. */
export function viaAndTrace(gap: number, radius: number, layer: number, vias: Partial<Board>): Scene {
  const left = trace(A, 5, [[3000, 0], [1000, 0]], { via: 'through' }) // prettier-ignore
  return scene(copperOf(left, upright(B, layer, 3000 + radius + gap + 40)), vias)
}

export const PADS_REMOVED = { vias: [via('through', { unconnectedInnerPads: 'removed' })] }
