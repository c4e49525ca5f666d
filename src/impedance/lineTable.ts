import type { Metres, Ohms, Ratio, SecondsPerMetre } from '../units/quantity.ts'
import type { LineImpedance } from './estimate.ts'
import type { NeckStretch, Route } from '../routes/route.ts'
import type { LoadedLine, Passage } from './amongVias.ts'

/** One line of the review: a class on a layer, as neck inside a package or as main route. */
export interface LineEntry {
  readonly netClass: string
  readonly layer: number
  readonly stretch: 'neck' | 'main'
  /** Package whose channel set the width of a neck; null for the main route. */
  readonly package: string | null
  /** Finished foot width; null where no width reaches the target (see `refusal`). */
  readonly width: Metres | null
  readonly gap: Metres | null
  readonly widthBasis: 'given' | 'solved for the target' | 'widest that fits the channel'
  /** Between solid planes with nothing beside it. */
  readonly impedance: LineImpedance | null
  /** All necks of planned routes that run on it, and what stands beside them; null where none does. */
  readonly passage: Passage | null
  /** The mean of those necks; null where nothing stands beside any of them. */
  readonly loaded: LoadedLine | null
  /** The necks among them that differ most: their impedance with what stands beside each. */
  readonly range: { readonly lowest: Ohms; readonly highest: Ohms } | null
  /** The one among them that what stands beside it changes most. */
  readonly mostLoaded: { readonly passage: Passage; readonly loaded: LoadedLine } | null
  readonly runs: RunningValue | null
  readonly refusal: string | null
  /** True where a planned route really uses it. */
  readonly used: boolean
}

/** The line of one stretch of a planned neck. */
export interface StretchLine {
  readonly line: LineImpedance
  readonly width: Metres
  readonly loaded: LoadedLine | null
  readonly runs: RunningValue
}

/** What a signal meets on a line: the loaded value of a neck among vias, else that between solid planes. */
export interface RunningValue {
  readonly impedance: Ohms
  readonly delay: SecondsPerMetre
  /** Half-width of the error band, as a fraction. */
  readonly band: Ratio
}

export function runningValue(line: LineImpedance, loaded: LoadedLine | null): RunningValue {
  if (loaded !== null) return { impedance: loaded.impedance, delay: loaded.delay, band: loaded.band }
  return { impedance: line.impedance, delay: line.delay, band: line.chosen.claimedError }
}

export interface LineTable {
  readonly entries: readonly LineEntry[]
  /** With `gap` of the route, a coupled neck (a number) is told from a split one (null). */
  neck(netClass: string, layer: number, packageName: string, gap?: Metres | null): LineEntry | undefined
  main(netClass: string, layer: number): LineEntry | undefined
  /** Of a route's own stretch; undefined where its line could not be computed. */
  along(stretch: NeckStretch): StretchLine | undefined
  /** Of a route's dog-bone, whose traces are apart; undefined where it has none, or its line could not be computed. */
  dogBone(route: Route): StretchLine | undefined
}
