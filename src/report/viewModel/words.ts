import { formatLength, formatOhms, formatPercent, formatSignedPercent } from '../../units/format.ts'
import type { LengthUnit, Metres, Ohms, Ratio } from '../../units/quantity.ts'
import type { ViaTechnology } from '../../escape/escape.ts'

/** Small pieces of print that several sections share. */

export const ABSENT = '–'

/** `1 net`, `12 nets`. */
export function count(number: number, noun: string, plural = `${noun}s`): string {
  return `${number} ${number === 1 ? noun : plural}`
}

/** `a`, `a and b`, `a, b and c`. */
export function list(words: readonly string[]): string {
  const last = words.at(-1)
  if (last === undefined) return 'none'
  return words.length === 1 ? last : `${words.slice(0, -1).join(', ')} and ${last}`
}

/** The first few names and how many more there are. */
export function someOf(names: readonly string[], most = 4): string {
  if (names.length <= most + 1) return list(names)
  return `${names.slice(0, most).join(', ')} and ${names.length - most} more`
}

/** First word with a capital; the name of a file or the path of a key (`classes[0].target`) stays as it is written. */
export function capital(text: string): string {
  return /^\S*[\w\]][._[]\w/.test(text) ? text : `${text.slice(0, 1).toUpperCase()}${text.slice(1)}`
}

/** For the middle of a sentence: `Field solution` as `field solution`; names (`H. A. Wheeler`, `Cohn`) stay. */
export function methodInSentence(title: string): string {
  return title.replace(/^(Field|Exact|Exponential|Conformal|Simple|One|Two)\b/, (word) => word.toLowerCase())
}

/** Texts of other rooms count copper from the top, `layer 5`; print calls it by its name in the stackup. */
export function withLayerNames(text: string, layerName: (layer: number) => string): string {
  return text.replace(/\blayer (\d+)\b/g, (_, number: string) => layerName(Number(number)))
}

/** `+1.2 %`; what rounds to nothing has no sign. */
export function signedPercent(ratio: Ratio): string {
  return formatSignedPercent(ratio).replace(/^[+-](?=0\.0 )/, '')
}

/** An error band, `1.0 %`; from 10 % up its tenths say nothing. */
export function bandText(band: Ratio): string {
  return formatPercent(band, band < 0.0995 ? 1 : 0)
}

/** `50.3 ohm ± 1.0 %`. */
export function ohmsWithBand(ohms: Ohms, band: Ratio): string {
  return `${formatOhms(ohms)} ± ${bandText(band)}`
}

/** A derived length of which three digits are enough: `0.325 mm`, `13.6 mm`, `267 mm`. */
export function roughLength(metres: Metres, unit: LengthUnit): string {
  const [figure = '', symbol = ''] = formatLength(metres, unit).split(' ')
  const value = Number(figure)
  if (value < 10) return `${figure} ${symbol}`
  return `${value < 1000 ? value.toPrecision(3) : value.toFixed(0)} ${symbol}`
}

/** `48 213`: groups of three, kept on one line. */
export function thousands(number: number): string {
  return String(number).replace(/\B(?=(\d{3})+$)/g, '\u00a0')
}

/** `40.0 ohm ± 10 %`. */
export function target(ohms: Ohms, tolerance: Ratio): string {
  return `${formatOhms(ohms)} ± ${formatPercent(tolerance, tolerance * 100 === Math.round(tolerance * 100) ? 0 : 1)}`
}

/** `0.80 mm`, or both ends where they print differently: `0.800 to 3.213 mm`. */
export function lengthRange(low: Metres, high: Metres, unit: LengthUnit): string {
  const from = formatLength(low, unit)
  const to = formatLength(high, unit)
  return from === to ? from : `${from.replace(` ${unit}`, '')} to ${to}`
}

export function technologyName(technology: ViaTechnology | 'any'): string {
  if (technology === 'any') return 'any via'
  return technology === 'through' ? 'through vias' : 'blind vias or microvias'
}

/** Figure and unit kept on one line, and a sign with its figure. */
export function keepTogether(text: string): string {
  return text
    .replace(
      /(\d) (mm|mil|ohm|ps|ns|fs|um|GHz|MHz|kHz|Hz|Gb\/s|GBd|%|dB\/\w+|ps\/\w+|pF\/m|nH\/m)(?![\w])/g,
      '$1\u00a0$2',
    )
    .replace(/± (\d)/g, '±\u00a0$1')
}
