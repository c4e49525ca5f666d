import type { Ohms } from '../../units/quantity.ts'
import { striplineExact } from './striplineExact.ts'
import { striplineWheeler } from './striplineWheeler.ts'
import type { CentredStripline } from './striplineLine.ts'

/**
 * Centred stripline with thickness: the exact impedance of the zero-thickness strip, times what Wheeler's formula
 * says of the effect of the thickness.
 *
 *     Z = Zexact(w, b) · ZWheeler(w, t, b)/ZWheeler(w, 0, b)
 *
 * The error that Wheeler's formula has at zero thickness cancels.
 *
 * Assumes: TEM, lossless, infinite planes, one dielectric, rectangular strip midway.
 * Source: the two formulas of S. B. Cohn, 1954, and H. A. Wheeler, 1978 (see striplineExact.ts, striplineWheeler.ts);
 * the product is an own construction, this project.
 */
export function striplineExactWithThickness(line: CentredStripline): Ohms {
  return (striplineExact(line) * striplineWheeler(line)) / striplineWheeler({ ...line, thickness: 0 })
}
