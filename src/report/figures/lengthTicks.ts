import { scaleLinear } from 'd3-scale'
import { formatLength } from '../../units/format.ts'
import { toSi, UNITS } from '../../units/unitTable.ts'
import type { LengthUnit, Metres } from '../../units/quantity.ts'

/** Ticks at round numbers of the display unit: a scale in metres would put them at odd mils. */
export function lengthTicks(low: Metres, high: Metres, count: number, unit: LengthUnit): Metres[] {
  const entry = UNITS.get(unit)
  if (entry === undefined) throw new RangeError(`${unit} is not in the table of units`)
  const one = toSi(1, entry)
  return scaleLinear([low / one, high / one], [0, 1])
    .ticks(count)
    .map((value) => toSi(value, entry))
}

/** Leading figures that a reader expects on a logarithmic axis. */
const ROUND = [1, 1.5, 2, 3, 4, 5, 6, 8]

/** Ticks of a logarithmic axis at round numbers of the display unit. */
export function logLengthTicks(low: Metres, high: Metres, unit: LengthUnit): Metres[] {
  const entry = UNITS.get(unit)
  if (entry === undefined) throw new RangeError(`${unit} is not in the table of units`)
  const one = toSi(1, entry)
  const [first, last] = [low, high].map((end) => Math.floor(Math.log10(end / one)))
  const decades = Array.from({ length: (last ?? 0) - (first ?? 0) + 1 }, (_, step) => (first ?? 0) + step)
  return decades
    .flatMap((decade) => ROUND.map((figure) => toSi(Number(`${figure}e${decade}`), entry)))
    .filter((value) => value >= low && value <= high)
}

/** A tick's number alone; the axis title names the unit. */
export function tickNumber(metres: Metres, unit: LengthUnit): string {
  return formatLength(metres, unit).replace(` ${unit}`, '')
}
