import type { CrossSection, DielectricSheet } from '../../section/crossSection.ts'
import type { Hertz, Metres, Ratio } from '../../units/quantity.ts'
import { permittivityAt } from '../closedForm/widebandPermittivity.ts'

type Range<Quantity extends number> = readonly [Quantity, Quantity]

/** Ranges of sizes and permittivities. */
export interface LineRanges {
  /** Trace width, and gaps of every kind. */
  readonly trace: Range<Metres>
  readonly copper: Range<Metres>
  /** Dielectric on one side of the trace, in one sheet or several. */
  readonly height: Range<Metres>
  readonly permittivity: Range<Ratio>
}

/** The lines of a breakout: here the errors of the closed forms were measured most densely. */
export const FINE_LINES: LineRanges = {
  trace: [40e-6, 400e-6],
  copper: [10e-6, 60e-6],
  height: [40e-6, 400e-6],
  permittivity: [2.8, 4.8],
}

/**
 * What the errors of the closed forms are kept apart by:
 *
 * - plain: a fine line as it is mostly built, one sheet on each side, of nearly one permittivity, copper not too thick;
 * - fine: any other line of a breakout;
 * - wide: everything else.
 */
export const REGIMES = ['plain', 'fine', 'wide'] as const

export type Regime = (typeof REGIMES)[number]

export function regimeOf(section: CrossSection, frequency: Hertz): Regime {
  const { trace, gap, coplanarGap, below, above, broadside } = section
  const piles = [below, above, broadside?.sheets ?? []].filter((sheets) => sheets.length > 0)
  const permittivities = piles.flat().map((sheet) => permittivityAt(sheet.permittivity, frequency).relative)
  const sizes = [trace.width, gap, coplanarGap].filter((size) => size !== null)
  const fine =
    within(FINE_LINES.trace, sizes) &&
    within(FINE_LINES.copper, [trace.thickness]) &&
    within(FINE_LINES.height, piles.map(heightOf)) &&
    within(FINE_LINES.permittivity, permittivities)
  if (!fine) return 'wide'
  const plain =
    piles.every((sheets) => sheets.length === 1) &&
    Math.max(...permittivities) <= PLAIN.contrast * Math.min(...permittivities) &&
    trace.thickness <= PLAIN.thicknessToWidth * trace.width
  return plain ? 'plain' : 'fine'
}

const PLAIN = { contrast: 1.1, thicknessToWidth: 0.6 } as const

function heightOf(sheets: readonly DielectricSheet[]): Metres {
  return sheets.reduce((sum, { thickness }) => sum + thickness, 0)
}

/** Whole micrometres add up with a last digit that is not theirs. */
const LAST_DIGIT = 1e-9

function within([low, high]: Range<number>, values: readonly number[]): boolean {
  return values.every((value) => value >= low * (1 - LAST_DIGIT) && value <= high * (1 + LAST_DIGIT))
}
