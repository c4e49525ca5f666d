import { formatLocale } from 'd3-format'
import type {
  BitsPerSecond,
  Farads,
  FaradsPerMetre,
  HenriesPerMetre,
  Hertz,
  LengthUnit,
  Metres,
  NepersPerMetre,
  Ohms,
  Ratio,
  Seconds,
  SecondsPerMetre,
  SymbolsPerSecond,
} from './quantity.ts'
import { siFactor, UNITS } from './unitTable.ts'

// A plain hyphen for minus: what is printed can be typed in again.
const locale = formatLocale({
  decimal: '.',
  thousands: '',
  grouping: [3],
  currency: ['', ''],
  minus: '-',
})

const digits = (specifier: string): ((value: number) => string) => locale.format(specifier)

/** Below this a length is rounding noise and prints as zero. */
const SMALLEST_LENGTH: Metres = 1e-9

/**
 * `0.102 mm` or `4.0 mil`. Millimetres have 3 decimals; mils 1, or 2 below 10 mil where the second
 * says something. Lengths that these would round away (roughness, tolerances) get 2 digits.
 * Throws RangeError when the length is not finite.
 */
export function formatLength(metres: Metres, unit: LengthUnit): string {
  const value = Math.abs(metres) < SMALLEST_LENGTH ? 0 : inUnit(metres, unit, 'length')
  const size = Math.abs(value)
  const [finest, decimals] = unit === 'mm' ? [0.01, 3] : [0.1, 1]
  if (value !== 0 && size < finest) return `${atLeast(decimals, digits('.2~r')(value))} ${unit}`
  if (unit === 'mm') return `${digits('.3f')(value)} mm`
  const says = size < 10 && !digits('.2f')(value).endsWith('0')
  return `${digits(says ? '.2f' : '.1f')(value)} mil`
}

/** `0.01` with at least three decimals is `0.010`, so that it lines up with its neighbours. */
function atLeast(decimals: number, text: string): string {
  const [whole = '', fraction = ''] = text.split('.')
  return `${whole}.${fraction.padEnd(decimals, '0')}`
}

/** `50.3 ohm`; whole ohms from 1000 up, 2 digits below 1. Throws RangeError when not finite. */
export function formatOhms(ohms: Ohms): string {
  const size = Math.abs(finite(ohms, 'impedance', 'ohm'))
  if (ohms !== 0 && size < 1) return `${digits('.2r')(ohms)} ohm`
  return `${digits(size < 1000 ? '.1f' : '.0f')(ohms)} ohm`
}

/** `50.3 ohm ± 1.0 %`. Throws RangeError when a value is not finite or the band is negative. */
export function formatOhmsWithBand(ohms: Ohms, band: Ratio): string {
  if (!(band >= 0)) throw new RangeError(`error band must not be negative, got ${band}`)
  return `${formatOhms(ohms)} ± ${formatPercent(band)}`
}

/** `12.4 ps`, `0.40 ps`, `1.23 ns`: picoseconds up to one nanosecond, then 3 digits. Throws RangeError when not finite. */
export function formatTime(seconds: Seconds): string {
  const ps = inUnit(seconds, 'ps', 'time')
  const size = Math.abs(ps)
  if (size >= 999.5) return `${withPrefix(seconds, '.3s')}s`
  if (size >= 99.95) return `${digits('.0f')(ps)} ps`
  return `${digits(size >= 9.995 ? '.1f' : '.2f')(ps)} ps`
}

/** `1 GHz`, `3.13 GHz`: 3 digits, trailing zeros left out. Throws RangeError when not finite. */
export function formatFrequency(hertz: Hertz): string {
  return `${withPrefix(finite(hertz, 'frequency', 'Hz'), '.3~s')}Hz`
}

/** `3.2 Gb/s`, `10.3125 Gb/s`. Throws RangeError when not finite. */
export function formatBitRate(rate: BitsPerSecond): string {
  return `${withPrefix(finite(rate, 'bit rate', 'b/s'), '.6~s')}b/s`
}

/** `1.6 GBd`. Throws RangeError when not finite. */
export function formatSymbolRate(rate: SymbolsPerSecond): string {
  return `${withPrefix(finite(rate, 'symbol rate', 'Bd'), '.6~s')}Bd`
}

/** `12.0 %` for 0.12. Throws RangeError when not finite. */
export function formatPercent(ratio: Ratio, decimals = 1): string {
  return `${digits(`.${decimals}f`)(inUnit(ratio, '%', 'ratio'))} %`
}

/** `+12.0 %` for 0.12: where the sign says which way. Throws RangeError when not finite. */
export function formatSignedPercent(ratio: Ratio): string {
  return ratio > 0 ? `+${formatPercent(ratio)}` : formatPercent(ratio)
}

/** `-9.2 to +10.2 %`. Throws RangeError when an end is not finite. */
export function formatSignedRange({
  lowest,
  highest,
}: {
  readonly lowest: Ratio
  readonly highest: Ratio
}): string {
  return `${formatSignedPercent(lowest).replace(/\s%$/, '')} to ${formatSignedPercent(highest)}`
}

/** `0.124`: significant digits, with an exponent below 0.0001 and from a million up. Throws RangeError when not finite. */
export function formatNumber(value: number, significant = 3): string {
  const size = Math.abs(finite(value, 'number', ''))
  if (value === 0) return '0'
  return digits(size >= 1e-4 && size < 1e6 ? `.${significant}r` : `.${significant - 1}e`)(value)
}

/** `6.9 ps/mm` or, for mil, `175 ps/in`. Throws RangeError when not finite. */
export function formatDelayPerLength(secondsPerMetre: SecondsPerMetre, unit: LengthUnit): string {
  if (unit === 'mm') return `${digits('.1f')(inUnit(secondsPerMetre, 'ps/mm', 'delay per length'))} ps/mm`
  return `${digits('.0f')(inUnit(secondsPerMetre, 'ps/in', 'delay per length'))} ps/in`
}

/** `0.012 dB/mm` or, for mil, `0.31 dB/in`; 2 digits where these decimals would show none. Throws RangeError when not finite. */
export function formatLoss(nepersPerMetre: NepersPerMetre, unit: LengthUnit): string {
  const [symbol, decimals] = unit === 'mm' ? (['dB/mm', 3] as const) : (['dB/in', 2] as const)
  const value = inUnit(nepersPerMetre, symbol, 'attenuation')
  const small = value !== 0 && Math.abs(value) < 10 ** (1 - decimals)
  return `${digits(small ? '.2~r' : `.${decimals}f`)(value)} ${symbol}`
}

/** `292 fF`. Throws RangeError when not finite. */
export function formatCapacitance(farads: Farads): string {
  return `${withPrefix(finite(farads, 'capacitance', 'F'), '.3s')}F`
}

/** `130 pF/m`. Throws RangeError when not finite. */
export function formatCapacitancePerLength(faradsPerMetre: FaradsPerMetre): string {
  return `${withPrefix(finite(faradsPerMetre, 'capacitance per length', 'F/m'), '.3s')}F/m`
}

/** `325 nH/m`. Throws RangeError when not finite. */
export function formatInductancePerLength(henriesPerMetre: HenriesPerMetre): string {
  return `${withPrefix(finite(henriesPerMetre, 'inductance per length', 'H/m'), '.3s')}H/m`
}

/** `1.2 GHz` without the unit's own letters: number, space, prefix. */
function withPrefix(value: number, specifier: string): string {
  return digits(specifier)(value)
    .replace(/([a-zµ]?)$/i, ' $1')
    .replace('µ', 'u')
}

function inUnit(value: number, symbol: string, what: string): number {
  const unit = UNITS.get(symbol)
  if (unit === undefined) throw new RangeError(`${symbol} is not in the table of units`)
  return finite(value, what, symbol) / siFactor(unit)
}

function finite(value: number, what: string, unit: string): number {
  if (!Number.isFinite(value)) throw new RangeError(`${what} must be finite, got ${value} ${unit}`.trim())
  return value
}
