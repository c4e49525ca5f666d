import {
  formatCapacitance,
  formatFrequency,
  formatLength,
  formatNumber,
  formatOhms,
  formatPercent,
  formatTime,
} from '../units/format.ts'
import type { LengthUnit } from '../units/quantity.ts'
import type { Measure } from '../findings/finding.ts'
import { bandText } from './viewModel/words.ts'

/** The figure of a measure with its unit and, where it has one, its error band. */
export function formatMeasure(
  measure: Measure,
  unit: LengthUnit,
  layerName: (layer: number) => string,
): string {
  const value = formatValue(measure, unit, layerName)
  return measure.band === null ? value : `${value} ± ${bandText(measure.band)}`
}

function formatValue(measure: Measure, unit: LengthUnit, layerName: (layer: number) => string): string {
  const { value } = measure
  switch (measure.unit) {
    case 'm':
      return formatLength(value, unit)
    case 'ohm':
      return formatOhms(value)
    case 's':
      return formatTime(value)
    case 'Hz':
      return formatFrequency(value)
    case 'F':
      return formatCapacitance(value)
    case 'fraction':
      return formatPercent(value)
    case 'percent':
      return `${formatNumber(value)} %`
    case 'count':
      return Number.isInteger(value) ? String(value) : formatNumber(value)
    case 'layer':
      return layerName(value)
    case 'text':
      return ''
  }
}
