import type { Assumption } from '../units/assumption.ts'
import type { Hertz, Metres, OhmMetres, Ratio } from '../units/quantity.ts'

/** From top to bottom. Copper layers are numbered from 1 at the top. */
export interface Stackup {
  readonly layers: readonly StackupLayer[]
  readonly copper: readonly CopperLayer[]
  /** Sum of copper and dielectric thickness, mask left out. */
  readonly computedThickness: Metres
  readonly statedThickness: Metres | null
  readonly thicknessTolerance: Ratio
  readonly assumed: readonly Assumption[]
}

export type StackupLayer = MaskLayer | CopperLayer | DielectricLayer

export interface MaskLayer {
  readonly kind: 'mask'
  readonly name: string
  readonly side: 'top' | 'bottom'
  readonly thicknessOverLaminate: Metres
  readonly thicknessOverTrace: Metres
  readonly permittivity: Permittivity
  readonly assumed: readonly Assumption[]
}

export interface CopperLayer {
  readonly kind: 'copper'
  readonly name: string
  /** 1 at the top. */
  readonly number: number
  readonly position: 'top' | 'inner' | 'bottom'
  readonly role: 'signal' | 'plane' | 'mixed'
  /** Net of the plane, e.g. GND; null on a signal layer. */
  readonly planeNet: string | null
  /** Finished thickness. */
  readonly thickness: Metres
  /** How `thickness` came about, for print: stated, or start weight plus plating less processing. */
  readonly thicknessBasis: string
  /** Nominal thickness of the starting foil, and plating added to it; null when only the finished thickness is known. */
  readonly startingFoil: Metres | null
  readonly plating: Metres | null
  /** Side of the dielectric that the foil was bonded to before etching: the trace foot lies there. */
  readonly bondedTo: 'above' | 'below'
  /** Narrowing of each side wall from foot to top, per unit of copper thickness: 1 / etch factor. */
  readonly sidewallSlope: Ratio
  /** Root-mean-square roughness of the copper face, for loss. */
  readonly roughness: Metres
  readonly resistivity: OhmMetres
  readonly thicknessTolerance: Ratio
  readonly assumed: readonly Assumption[]
}

export interface DielectricLayer {
  readonly kind: 'dielectric'
  readonly name: string
  readonly type: 'core' | 'prepreg'
  readonly material: string | null
  /** Pressed, from copper face to copper face. */
  readonly thickness: Metres
  /** How `thickness` came about, for print: pressed as stated, or plies less resin fill. */
  readonly thicknessBasis: string
  readonly plies: readonly Ply[]
  readonly permittivity: Permittivity
  readonly thicknessTolerance: Ratio
  readonly assumed: readonly Assumption[]
}

export interface Ply {
  readonly style: string
  readonly count: number
  /** Of one ply pressed without fill. */
  readonly thickness: Metres
}

/** Relative permittivity and loss tangent at a stated frequency; other frequencies by a causal model. */
export interface Permittivity {
  readonly relative: Ratio
  readonly lossTangent: Ratio
  readonly frequency: Hertz
  /** Half-width of the range, as a fraction of `relative`. */
  readonly tolerance: Ratio
}
