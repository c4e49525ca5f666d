import type {
  FaradsPerMetre,
  HenriesPerMetre,
  Hertz,
  NepersPerMetre,
  Ohms,
  Ratio,
  SecondsPerMetre,
} from '../units/quantity.ts'
import type { CrossSection } from '../section/crossSection.ts'
import type { Limit, Violation } from './closedForm/limits.ts'

/** Propagation of one mode, lossless. Impedance of one trace to ground in that mode. */
export interface ModeConstants {
  readonly impedance: Ohms
  readonly effectivePermittivity: Ratio
}

export type Modes =
  | { readonly kind: 'single'; readonly line: ModeConstants }
  | { readonly kind: 'pair'; readonly even: ModeConstants; readonly odd: ModeConstants }

/** What one closed form says of one cross-section. */
export interface FormulaEstimate {
  readonly formula: FormulaIdentity
  readonly modes: Modes
  /** Half-width of the band on the verdict impedance, as a fraction; grows when limits are violated. */
  readonly claimedError: Ratio
  /** Whence the band: published accuracy, or worst case measured against a named reference. */
  readonly errorBasis: string
  readonly violations: readonly Violation[]
}

export interface FormulaIdentity {
  /** Stable, in words, e.g. `microstrip-hammerstad-jensen`. */
  readonly id: string
  readonly title: string
  /** Author, title, year, equation; for parts of our own also 'own fit, this project'. */
  readonly source: string
  /** True where the number rests on a fit of this project and not on a published form alone. */
  readonly ownFit: boolean
  readonly limits: readonly Limit[]
}

/** A closed form bound to the sections it answers for. */
export interface Formula extends FormulaIdentity {
  applies(section: CrossSection): boolean
  estimate(section: CrossSection, frequency: Hertz): FormulaEstimate
}

/** The answer for one line: every form that applies, and the constants that follow from the chosen one. */
export interface LineImpedance {
  readonly section: CrossSection
  /** Frequency at which permittivities were taken. */
  readonly frequency: Hertz
  readonly chosen: FormulaEstimate
  readonly others: readonly FormulaEstimate[]
  /** Line impedance of a single trace, differential (2 × odd) of a pair. */
  readonly impedance: Ohms
  /** Half of the even-mode impedance; null for a single trace. */
  readonly common: Ohms | null
  /** Of the single line, or of the odd mode of a pair, which is what a differential signal travels in. */
  readonly effectivePermittivity: Ratio
  readonly delay: SecondsPerMetre
  readonly capacitance: FaradsPerMetre
  readonly inductance: HenriesPerMetre
  readonly loss: LineLoss
}

export interface LineLoss {
  readonly frequency: Hertz
  readonly conductor: NepersPerMetre
  readonly dielectric: NepersPerMetre
  readonly roughnessFactor: Ratio
  readonly method: string
}
