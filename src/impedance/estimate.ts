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

/** What one method, a closed form or the field solution, says of one cross-section. */
export interface Estimate {
  readonly method: MethodIdentity
  readonly modes: Modes
  /** Half-width of the band on the verdict impedance, as a fraction; grows when limits are violated. */
  readonly claimedError: Ratio
  /** Whence the band: published accuracy, worst case measured against a named reference, or two refinements compared. */
  readonly errorBasis: string
  readonly violations: readonly Violation[]
}

export interface MethodIdentity {
  readonly kind: 'closed form' | 'field solution'
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
export interface Formula extends MethodIdentity {
  applies(section: CrossSection): boolean
  estimate(section: CrossSection, frequency: Hertz): Estimate
  /** The modes of that estimate alone, for trials; throws as it does. */
  modes(section: CrossSection, frequency: Hertz): Modes
  /** No estimate claims a smaller error. */
  readonly leastClaim: Ratio
  /** How many regions its error was measured in. */
  readonly regions: number
  /** In which region a section lies, how far outside the last, and the errors that come on top: for measuring bands. */
  locate(section: CrossSection, frequency: Hertz): { region: number; growth: Ratio; added: Ratio }
}

/**
 * The answer for one line: every closed form that applies and the field solution, and the constants that follow
 * from the chosen one. The method with the smallest error band is chosen; the others stand in the order of theirs.
 */
export interface LineImpedance {
  readonly section: CrossSection
  /** Frequency at which permittivities were taken. */
  readonly frequency: Hertz
  readonly chosen: Estimate
  readonly others: readonly Estimate[]
  /** The best closed form over the field solution, less 1; null where one of the two has no answer. */
  readonly closedFormDifference: Ratio | null
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
