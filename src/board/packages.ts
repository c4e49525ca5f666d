import type { Assumption } from '../units/assumption.ts'
import type { Metres, Point } from '../units/quantity.ts'
import type { EscapeWishes } from './escapeWishes.ts'

export interface Placement {
  readonly origin: Point
  readonly side: 'top' | 'bottom'
  /** Anticlockwise, degrees, seen from the top of the board. */
  readonly rotationDegrees: number
}

/** A ball grid array on the board. */
export interface Package {
  readonly name: string
  readonly part: string | null
  readonly placement: Placement
  /** Extent of the grid, counting places whose ball is missing. */
  readonly rows: number
  readonly columns: number
  /** Distance between neighbouring columns (along x) and rows (along y). */
  readonly pitch: GridPitch
  /** Distance between neighbouring vias; the ball pitch unless stated. */
  readonly viaPitch: GridPitch
  readonly balls: readonly Ball[]
  /** False when balls were given by coordinates that do not all lie on the grid. */
  readonly onGrid: boolean
  readonly ballDiameter: Metres
  /** Copper land on the board. */
  readonly landDiameter: Metres
  readonly maskOpening: Metres
  /** Name of the via type that takes this package's nets to inner layers. */
  readonly via: string
  readonly viaPlacement: 'dog-bone' | 'in pad'
  readonly escape: EscapeWishes
  /** Signals as a share of the balls, used where the ball map does not say which are signals. */
  readonly signalShare: number
  /** True when the number of signals comes from `signalShare` and not from the ball map. */
  readonly signalsAssumed: boolean
  readonly assumed: readonly Assumption[]
}

export interface GridPitch {
  readonly x: Metres
  readonly y: Metres
}

export type BallUse = 'signal' | 'power' | 'ground' | 'unused'

export interface Ball {
  /** JEDEC designator, e.g. `AA14`. */
  readonly name: string
  /** Zero-based place in the grid: row A is 0, column 1 is 0. */
  readonly row: number
  readonly column: number
  /** Centre in the package's own frame, top view, origin at the middle of the grid, y upwards (row A on top). */
  readonly x: Metres
  readonly y: Metres
  readonly net: string | null
  readonly use: BallUse
  readonly pinFunction: string | null
  /** True when the use was not stated but inferred or filled in. */
  readonly useAssumed: boolean
}
