import type { Metres } from '../../units/quantity.ts'

/**
 * Step of the whole-number grid on which copper is compared: one picometre. Every length stated in whole
 * nanometres or thousandths of a mil, and half of it, lies on the grid. What does not, such as the corner of a
 * chamfer, moves by at most half a step along each axis: an edge-to-edge distance by less than 4 steps, one part in a
 * hundred thousand of the usual comparison tolerance of 0.5 um. Coordinates up to metres keep their
 * differences exact in floating point.
 */
export const GRID: Metres = 1e-12

/** Steps of the grid, halves away from zero, so that mirrored copper stays mirrored. Throws RangeError for what is no length. */
export function toGrid(length: Metres): number {
  const steps = Math.sign(length) * Math.round(Math.abs(length) / GRID)
  if (!Number.isSafeInteger(steps)) throw new RangeError(`length must be a number of metres, got ${length} m`)
  return steps
}

export function fromGrid(steps: number): Metres {
  return steps * GRID
}
