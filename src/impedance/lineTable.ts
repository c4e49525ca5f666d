import type { Metres } from '../units/quantity.ts'
import type { LineImpedance } from './estimate.ts'

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
  readonly impedance: LineImpedance | null
  readonly refusal: string | null
  /** True where a planned route really uses it. */
  readonly used: boolean
}

export interface LineTable {
  readonly entries: readonly LineEntry[]
  /** With `gap` of the route, a coupled neck (a number) is told from a split one (null). */
  neck(netClass: string, layer: number, packageName: string, gap?: Metres | null): LineEntry | undefined
  main(netClass: string, layer: number): LineEntry | undefined
}
