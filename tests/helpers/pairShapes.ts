import type { MicrostripPair } from '../../src/impedance/closedForm/microstripPair.ts'
import type { OffsetStriplinePair } from '../../src/impedance/closedForm/offsetStriplinePair.ts'
import type { PairConstants } from '../../src/impedance/closedForm/pairConstants.ts'
import type { CentredStriplinePair } from '../../src/impedance/closedForm/striplinePair.ts'
import { within, type Comparison } from './compareTable.ts'
import { centred, microstrip, offset } from './lineShapes.ts'

/** Short ways to write pairs; lengths in micrometres, permittivity last. */
export function microstripPair(
  width: number,
  gap: number,
  height: number,
  thickness: number,
  permittivity: number,
): MicrostripPair {
  return { ...microstrip(width, height, thickness, permittivity), gap: gap * 1e-6 }
}

export function centredPair(
  width: number,
  gap: number,
  spacing: number,
  thickness: number,
  permittivity: number,
): CentredStriplinePair {
  return { ...centred(width, spacing, thickness, permittivity), gap: gap * 1e-6 }
}

export function offsetPair(
  width: number,
  gap: number,
  thickness: number,
  below: number,
  above: number,
  permittivity: number,
): OffsetStriplinePair {
  return { ...offset(width, thickness, below, above, permittivity), gap: gap * 1e-6 }
}

/** Even and odd impedance, even and odd permittivity: the order of the published tables. */
export function fourConstants({ even, odd }: PairConstants): number[] {
  return [even.impedance, odd.impedance, even.effectivePermittivity, odd.effectivePermittivity]
}

/** Rows that hold computed values against check values of 12 digits, to 1e-9. */
export function checkValues(
  label: string,
  actual: readonly number[],
  expected: readonly number[],
): Comparison[] {
  return expected.map((value, index) => within(1e-9, `${label} [${index}]`, actual[index] ?? NaN, value))
}
