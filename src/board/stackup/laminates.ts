import table from '../../../reference/materials/laminates.json' with { type: 'json' }
import type { Hertz, Metres, Ratio } from '../../units/quantity.ts'
import { referenceValue, sourced, type Sourced } from '../referenceValue.ts'

export interface LaminateValues {
  readonly permittivity: Sourced
  readonly lossTangent: Sourced
  readonly frequency: Hertz
}

/**
 * Values for a dielectric whose own are not given: of the product that its material names, else of
 * ordinary FR-4 on the glass that its material or plies name, else of ordinary FR-4.
 */
export function laminateValues(material: string | null, styles: readonly string[]): LaminateValues {
  const words = new Set((material ?? '').toUpperCase().split(/[^A-Z0-9-]+/))
  const product = table.products.find(({ name }) => words.has(name.toUpperCase()))
  const base = product ?? table.generic
  const glass =
    product === undefined
      ? table.glass.find(({ style }) => styles.includes(style) || words.has(style))
      : undefined
  const best = glass ?? base
  return {
    permittivity: { value: best.permittivity, source: best.source },
    lossTangent: { value: base.loss_tangent, source: base.source },
    frequency: referenceValue(base.at, 'frequency'),
  }
}

/** Thickness of one ply of a glass style pressed without fill; null where the style is not listed. */
export function plyThickness(style: string): Sourced | null {
  const row = table.glass.find((glass) => glass.style === style)
  return row === undefined ? null : { value: referenceValue(row.thickness, 'length'), source: row.source }
}

export const GLASS_STYLES: readonly string[] = table.glass.map(({ style }) => style)

/** Share of copper on a facing layer whose coverage is not given. */
export const ASSUMED_COVERAGE: Readonly<Record<'signal' | 'mixed' | 'plane', Sourced>> = {
  signal: sourced(table.coverage.signal, 'ratio'),
  mixed: sourced(table.coverage.mixed, 'ratio'),
  plane: sourced(table.coverage.plane, 'ratio'),
}

export const ASSUMED_PERMITTIVITY_TOLERANCE = sourced(table.tolerance.permittivity, 'ratio')
export const ASSUMED_BOARD_TOLERANCE = sourced(table.tolerance.board, 'ratio')

const PREPREG_TOLERANCE = sourced(table.tolerance.prepreg, 'ratio')
const CORE_BANDS = table.tolerance.core.bands.map(({ below, plus_minus }) => ({
  below: referenceValue(below, 'length'),
  plusMinus: referenceValue(plus_minus, 'length'),
}))

/** Plus or minus as a fraction: a band of IPC-4101 class B for core, a flat figure for prepreg. */
export function assumedThicknessTolerance(type: 'core' | 'prepreg', thickness: Metres): Sourced {
  if (type === 'prepreg') return PREPREG_TOLERANCE
  const band = CORE_BANDS.find(({ below }) => thickness < below)
  const ratio: Ratio =
    band === undefined ? PREPREG_TOLERANCE.value : Math.min(0.5, band.plusMinus / thickness)
  return { value: ratio, source: table.tolerance.core.source }
}

export interface MaskValues extends LaminateValues {
  readonly overLaminate: Metres
  readonly overTrace: Metres
}

export const ASSUMED_MASK: MaskValues = {
  overLaminate: referenceValue(table.mask.over_laminate, 'length'),
  overTrace: referenceValue(table.mask.over_trace, 'length'),
  permittivity: { value: table.mask.permittivity, source: table.mask.source },
  lossTangent: { value: table.mask.loss_tangent, source: table.mask.source },
  frequency: referenceValue(table.mask.at, 'frequency'),
}
