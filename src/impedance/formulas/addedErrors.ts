import type { DielectricSheet, TraceShape } from '../../section/crossSection.ts'
import type { Hertz, Ratio } from '../../units/quantity.ts'
import { permittivityAt } from '../closedForm/widebandPermittivity.ts'
import type { AddedError } from './claim.ts'

/**
 * What the preparation of a section for a kernel costs, on top of the kernel's own error. The shares are the worst
 * that a boundary-element solution of the section as it is showed, rounded up.
 */

/** The etched trapezoid as a rectangle of equivalent width: 2 % times the narrowing from foot to top. */
export function narrowingError(trace: TraceShape): AddedError {
  return {
    error: TRAPEZOID * Math.max(0, 1 - trace.topWidth / trace.width),
    cause: 'plus the etched trapezoid as a rectangle (own fit)',
  }
}

/** Several sheets of dielectric as one: 3 % times their contrast less one. */
export function sheetsError(sheets: readonly DielectricSheet[], frequency: Hertz): AddedError {
  return {
    error:
      SHEETS *
      (contrastOf(sheets.map((sheet) => permittivityAt(sheet.permittivity, frequency).relative)) - 1),
    cause: 'plus layered dielectric as one sheet (own fit)',
  }
}

/** Largest over smallest of some permittivities; 1 for none. */
export function contrastOf(permittivities: readonly Ratio[]): Ratio {
  return permittivities.length === 0 ? 1 : Math.max(...permittivities) / Math.min(...permittivities)
}

const TRAPEZOID = 0.02
const SHEETS = 0.03
