import { SPEED_OF_LIGHT } from '../../units/constants.ts'
import type { FaradsPerMetre, HenriesPerMetre } from '../../units/quantity.ts'
import type { ModeConstants } from '../estimate.ts'
import { inductanceOf, type LineMatrices, type Matrix } from './lineMatrices.ts'

/**
 * What a conductor does while another is looked at: switches with it (1) or against it (−1), or by any share of it;
 * is quiet (0), held at zero volts by its driver, so that nothing is sent along it; or is grounded all along.
 */
export type Drive = number | 'grounded'

export interface DrivenLine extends ModeConstants {
  readonly capacitance: FaradsPerMetre
  readonly inductance: HenriesPerMetre
}

/**
 * What one conductor among several looks like while all are driven in a pattern: C = Σ Cij vj / vi and
 * L = Σ Lij ij / ii, with currents in the pattern of the voltages.
 *
 * Where the pattern is a mode (both traces of a symmetric pair in or against phase) this is that mode; else the mean
 * over a length in which the modes have not yet run apart. A grounded conductor carries the current that keeps the
 * flux off it, a quiet one carries none.
 *
 * Source: S. H. Hall, G. W. Hall, J. A. McCall, High-Speed Digital System Design, 2000, section 3.2 (effective
 * impedance and velocity by switching pattern; from memory).
 *
 * Throws RangeError when the pattern does not fit the matrices, or does not drive the conductor asked for.
 */
export function drivenLine(matrices: LineMatrices, pattern: readonly Drive[], conductor: number): DrivenLine {
  const own = pattern[conductor]
  if (pattern.length !== matrices.capacitance.length) {
    throw new RangeError(
      `${matrices.capacitance.length} conductors need as many drives, got ${pattern.length}`,
    )
  }
  if (
    typeof own !== 'number' ||
    own === 0 ||
    !pattern.every((drive) => drive === 'grounded' || Number.isFinite(drive))
  ) {
    throw new RangeError(
      `conductor ${conductor} must be driven to look at it, got the pattern ${pattern.join(', ')}`,
    )
  }
  const free = pattern.flatMap((drive, index) => (drive === 'grounded' ? [] : [{ drive, index }]))
  const place = free.findIndex(({ index }) => index === conductor)
  const kept = (matrix: Matrix<number>): Matrix<number> =>
    free.map(({ index: row }) => free.map(({ index: column }) => Number(matrix[row]?.[column])))
  const seen = (matrix: Matrix<number>): number =>
    free.reduce((sum, { drive }, column) => sum + (Number(matrix[place]?.[column]) * drive) / own, 0)
  const capacitance = seen(kept(matrices.capacitance))
  const inductance = seen(
    free.length === pattern.length ? matrices.inductance : inductanceOf(kept(matrices.inAir)),
  )
  return {
    capacitance,
    inductance,
    impedance: Math.sqrt(inductance / capacitance),
    effectivePermittivity: capacitance * inductance * SPEED_OF_LIGHT ** 2,
  }
}
