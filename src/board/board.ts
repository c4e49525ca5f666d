import type { Assumption } from '../units/assumption.ts'
import type { Hertz, LengthUnit, Metres, Ratio } from '../units/quantity.ts'
import type { Fabrication } from './fabrication.ts'
import type { Net, NetClass } from './nets.ts'
import type { Package } from './packages.ts'
import type { Stackup } from './stackup.ts'
import type { ViaType } from './vias.ts'

/**
 * A board description, read and completed: all lengths in metres, every name resolved, every
 * value that was left out filled in and listed in `assumptions`.
 */
export interface Board {
  readonly title: string
  readonly revision: string | null
  readonly author: string | null
  readonly date: string | null
  readonly displayUnit: LengthUnit
  readonly packages: readonly Package[]
  readonly stackup: Stackup
  readonly vias: readonly ViaType[]
  readonly fabrication: Fabrication
  readonly classes: readonly NetClass[]
  readonly nets: readonly Net[]
  readonly claims: readonly LayerClaim[]
  readonly analysis: AnalysisSettings
  /** Every assumption of every part, in the order of the description. */
  readonly assumptions: readonly Assumption[]
}

/** What somebody said the breakout would need; the tool confirms it or says why not. */
export interface LayerClaim {
  readonly package: string
  readonly technology: 'through' | 'blind'
  readonly signalLayers: number
  readonly source: string
}

/** What the verdicts use. Each has a default that counts as an assumption when not stated. */
export interface AnalysisSettings {
  /** Permittivity is taken at this frequency for the impedance of a verdict. */
  readonly frequency: Hertz
  /** Two lengths that differ by no more than this are equal when a channel is filled. */
  readonly comparisonTolerance: Metres
  /** Largest |reflection| of a neck at the net's edge that passes where its class gives none. */
  readonly reflectionLimit: Ratio
  /** A neck longer than this share of the edge in space is electrically long. */
  readonly electricalLengthLimit: Ratio
  /** Largest near-end noise of the traces beside a neck, as a share of their swing, that passes. */
  readonly crosstalkLimit: Ratio
  readonly assumed: readonly Assumption[]
}
