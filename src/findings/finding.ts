import type { Assumption } from '../units/assumption.ts'

/** A fault, or something to know, as data. The sentence is made in the report. */
export interface Finding {
  readonly code: FindingCode
  readonly severity: 'error' | 'warning' | 'note'
  readonly subject: Subject
  readonly measured: Measure
  readonly limit: Measure
  readonly limitSource: string
  /** Computed, and tried: what would pass, and what it then measures. Empty only where nothing the tool may change helps. */
  readonly remedies: readonly Remedy[]
  /** Other figures worth a line of print. */
  readonly details: readonly Measure[]
  /** Assumed inputs that the measured value rests on. */
  readonly assumed: readonly Assumption[]
}

export const FINDING_CODES = [
  'neck-off-target',
  'main-off-target',
  'step-too-large',
  'neck-too-long',
  'process-decides',
  'channel-too-narrow',
  'ball-not-escaped',
  'drill-too-near',
  'mask-too-near',
  'annular-ring-too-small',
  'aspect-ratio-too-high',
  'span-unbuildable',
  'trace-over-antipad',
  'vias-load-neck',
  'neck-couples',
  'antipads-merge',
  'below-capability',
  'formula-outside-limits',
  'assumed-input-decides',
  'stub-too-long',
  'skew-too-large',
  'claim-refuted',
  'thickness-does-not-add-up',
] as const

export type FindingCode = (typeof FINDING_CODES)[number]

export interface Subject {
  readonly kind: 'net' | 'class' | 'package' | 'via' | 'layer' | 'board' | 'pair' | 'group'
  readonly name: string
  readonly layer: number | null
  readonly package: string | null
  /** Further subjects with the same fault, so that a bus makes one finding and not forty. */
  readonly alike: readonly string[]
}

export type MeasureUnit = 'm' | 'ohm' | 's' | 'Hz' | 'F' | 'fraction' | 'percent' | 'count' | 'layer' | 'text'

export interface Measure {
  readonly what: string
  readonly value: number
  readonly unit: MeasureUnit
  /** Error band as a fraction of the value; null where it has none. */
  readonly band: number | null
}

export interface Remedy {
  /** Imperative without the figure, e.g. `narrow the main route to`. */
  readonly action: string
  readonly value: Measure
  /** What the measured value becomes. */
  readonly result: Measure
}
