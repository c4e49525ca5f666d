import { formatFrequency, formatNumber, formatPercent } from '../../units/format.ts'
import type { Path } from '../document/path.ts'
import type { Notes } from '../notes.ts'
import type { Permittivity } from '../stackup.ts'
import { ASSUMED_PERMITTIVITY_TOLERANCE, type LaminateValues } from './laminates.ts'

interface PermittivityText {
  readonly permittivity?: number | undefined
  readonly loss_tangent?: number | undefined
  readonly at?: number | undefined
  readonly permittivity_tolerance?: number | undefined
}

/** Permittivity and loss as described; what is missing from `fallback`, each value noted as assumed. */
export function completePermittivity(
  text: PermittivityText,
  name: string,
  fallback: LaminateValues,
  path: Path,
  notes: Notes,
): Permittivity {
  const { permittivity, lossTangent, frequency } = fallback
  if (text.permittivity === undefined) {
    notes.assume(
      [...path, 'permittivity'],
      `relative permittivity of ${name}`,
      formatNumber(permittivity.value),
      permittivity.source,
    )
  }
  if (text.loss_tangent === undefined) {
    notes.assume(
      [...path, 'loss_tangent'],
      `loss tangent of ${name}`,
      formatNumber(lossTangent.value, 2),
      lossTangent.source,
    )
  }
  if (text.at === undefined) {
    notes.assume(
      [...path, 'at'],
      `frequency of the permittivity of ${name}`,
      formatFrequency(frequency),
      'common practice, no source',
    )
  }
  if (text.permittivity_tolerance === undefined) {
    const { value, source } = ASSUMED_PERMITTIVITY_TOLERANCE
    notes.assume(
      [...path, 'permittivity_tolerance'],
      `tolerance of the permittivity of ${name}`,
      `± ${formatPercent(value, 0)}`,
      source,
    )
  }
  return {
    relative: text.permittivity ?? permittivity.value,
    lossTangent: text.loss_tangent ?? lossTangent.value,
    frequency: text.at ?? frequency,
    tolerance: text.permittivity_tolerance ?? ASSUMED_PERMITTIVITY_TOLERANCE.value,
  }
}
