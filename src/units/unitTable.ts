import { DIMENSION_WORDS, type Dimension } from './dimension.ts'

/** One accepted unit. A value times `multiplier` times ten to the `exponent` is in SI. */
export interface UnitEntry {
  readonly symbol: string
  readonly dimension: Dimension | 'copper weight'
  readonly multiplier: number
  /** Kept apart from the multiplier so that 75 um becomes exactly the number 75e-6. */
  readonly exponent: number
}

type Row = readonly [spellings: string, multiplier: number, exponent: number]

/**
 * Nominal foil thickness of one ounce of copper per square foot in 1e-7 m: 34.3 um, IPC-4562
 * (Metal Foil for Printed Board Applications, 2000), table of foil designators.
 */
const OUNCE_FOIL = 343

/** Nepers in one decibel: ln(10) / 20, since 1 Np = 20 / ln(10) dB (ISO 80000-3:2006, C.3). */
const NEPERS_PER_DECIBEL = Math.LN10 / 20

/**
 * The spellings of each unit, parted by `|`, the first being the one that is printed. The inch is
 * 25.4 mm exactly (international yard and pound agreement, 1959); 1 thou = 1 mil = 0.001 in.
 * One transfer of one lane (GT/s) carries one bit. A unit is listed once for each prefix in use:
 * a rare one, such as the kilometre, is more often a slip than meant.
 */
const ROWS: Readonly<Record<Exclude<Dimension, 'copper thickness'> | 'copper weight', readonly Row[]>> = {
  length: [
    ['mm', 1, -3],
    ['um|micron|microns', 1, -6],
    ['mil|mils|thou', 254, -7],
    ['in|inch|inches|"', 254, -4],
    ['m', 1, 0],
    ['cm', 1, -2],
    ['nm', 1, -9],
    ['uin', 254, -10],
  ],
  'copper weight': [['oz|oz/ft²|oz/ft^2|oz/ft2', OUNCE_FOIL, -7]],
  time: [
    ['ps', 1, -12],
    ['ns', 1, -9],
    ['fs', 1, -15],
    ['us', 1, -6],
    ['ms', 1, -3],
    ['s', 1, 0],
  ],
  frequency: [
    ['GHz', 1, 9],
    ['MHz', 1, 6],
    ['kHz', 1, 3],
    ['Hz', 1, 0],
    ['THz', 1, 12],
  ],
  impedance: [
    ['ohm|ohms|Ohm|Ohms', 1, 0],
    ['mohm', 1, -3],
    ['kohm', 1, 3],
    ['Mohm', 1, 6],
  ],
  ratio: [
    ['%', 1, -2],
    ['ppm', 1, -6],
  ],
  'bit rate': [
    ['Gb/s|Gbps|Gbit/s|GT/s', 1, 9],
    ['Mb/s|Mbps|Mbit/s|MT/s', 1, 6],
    ['kb/s|kbps|kbit/s', 1, 3],
    ['b/s|bps|bit/s', 1, 0],
    ['Tb/s|Tbps|Tbit/s', 1, 12],
  ],
  'symbol rate': [
    ['GBd|GBaud', 1, 9],
    ['MBd|MBaud', 1, 6],
    ['kBd|kBaud', 1, 3],
    ['Bd|baud', 1, 0],
    ['TBd|TBaud', 1, 12],
  ],
  attenuation: [
    ['dB/in|dB/inch', NEPERS_PER_DECIBEL / 254, 4],
    ['dB/mm', NEPERS_PER_DECIBEL, 3],
    ['dB/cm', NEPERS_PER_DECIBEL, 2],
    ['dB/m', NEPERS_PER_DECIBEL, 0],
    ['Np/m', 1, 0],
  ],
  angle: [
    ['deg|°', Math.PI / 180, 0],
    ['rad', 1, 0],
  ],
  'delay per length': [
    ['ps/mm', 1, -9],
    ['ps/in|ps/inch', 1 / 254, -8],
    ['ps/cm', 1, -10],
    ['ps/m', 1, -12],
    ['ns/m', 1, -9],
    ['ns/in|ns/inch', 1 / 254, -5],
    ['s/m', 1, 0],
  ],
  resistivity: [
    ['ohm m|ohmm', 1, 0],
    ['uohm cm|uohmcm', 1, -8],
    ['nohm m|nohmm', 1, -9],
  ],
}

/** Every accepted spelling, in the form that `plainSpelling` gives. Case counts: ms is not Ms. */
export const UNITS: ReadonlyMap<string, UnitEntry> = new Map(
  Object.entries(ROWS).flatMap(([dimension, rows]) =>
    rows.flatMap(([spellings, multiplier, exponent]) => {
      const names = spellings.split('|')
      const symbol = names[0] ?? spellings
      const entry = { symbol, dimension: dimension as UnitEntry['dimension'], multiplier, exponent }
      return names.map((name) => [name, entry] as const)
    }),
  ),
)

/**
 * The same text with one character for what Unicode has two of: micro sign (U+00B5) and Greek mu
 * (U+03BC) become u, Greek omega (U+03A9) and the ohm sign (U+2126) become ohm, a true minus and
 * a no-break space their plain kin, and a raised dot between units a space.
 */
export function plainSpelling(text: string): string {
  return text
    .replace(/[\u00B5\u03BC]/g, 'u')
    .replace(/[\u03A9\u2126]/g, 'ohm')
    .replace(/\u2212/g, '-')
    .replace(/[\u2033\u201D]/g, '"')
    .replace(/[\u00B7\u22C5]/g, ' ')
    .replace(/\s+/g, ' ')
    .trim()
}

/** True where a unit of its own kind may stand for the wanted dimension: copper weight for copper thickness alone. */
export function mayStandFor(unit: UnitEntry, dimension: Dimension): boolean {
  if (dimension === 'copper thickness')
    return unit.dimension === 'length' || unit.dimension === 'copper weight'
  return unit.dimension === dimension
}

/** SI value of one of the unit. */
export function siFactor(unit: UnitEntry): number {
  return toSi(1, unit)
}

/** A value in the unit, in SI: rounded once, through decimal digits, where the factor is a power of ten. */
export function toSi(value: number, unit: UnitEntry): number {
  const scaled = value * unit.multiplier
  if (!Number.isFinite(scaled)) return scaled
  const [digits = '0', exponent = '0'] = scaled.toExponential().split('e')
  return Number(`${digits}e${Number(exponent) + unit.exponent}`)
}

/** Units that may stand for a dimension, usual ones first, for a message: `mm, um, mil, in`. */
export function unitList(dimension: Dimension): string {
  const symbols = [...UNITS.values()]
    .filter((unit) => mayStandFor(unit, dimension))
    .map((unit) => unit.symbol)
  const usual = DIMENSION_WORDS[dimension].usualUnit
  return [...new Set([usual, ...symbols])].join(', ')
}
