import type { Board } from '../../../src/board/board.ts'
import type { Package } from '../../../src/board/packages.ts'
import type { PlanCopper } from '../../../src/escape/clearance/planCopper.ts'
import type { DogBone } from '../../../src/escape/escape.ts'
import type { Route } from '../../../src/routes/route.ts'
import type { Point } from '../../../src/units/quantity.ts'
import { um } from '../fixtures.ts'

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
    leaves: 'top',
    ring: 1,
    origin: 'planned',
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
