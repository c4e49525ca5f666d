import type { CrossSection } from '../section/crossSection.ts'
import type { FaradsPerMetre, HenriesPerMetre, Metres, Ratio } from '../units/quantity.ts'
import { drivenLine } from './field/drivenLine.ts'
import { lineMatrices, type LineMatrices, type Matrix } from './field/lineMatrices.ts'
import type { Refinement } from './field/panels.ts'
import type { RelativePermittivity } from './field/sectionProblem.ts'
import { type RowTrace, traceRowProblem } from './field/traceRow.ts'

/** A trace, or a pair seen differentially, and the trace beside it. All positive. */
export interface RowConstants {
  /** Of the trace looked at, its neighbour at rest: differential voltage and current of a pair. */
  readonly capacitance: FaradsPerMetre
  readonly inductance: HenriesPerMetre
  readonly neighbourCapacitance: FaradsPerMetre
  readonly neighbourInductance: HenriesPerMetre
  /** Current that the neighbour's voltage drives into the trace, and voltage that its current induces there. */
  readonly mutualCapacitance: FaradsPerMetre
  readonly mutualInductance: HenriesPerMetre
  /** Impedance while the neighbour swings as far as each trace, with it or against it, over that while it is quiet. */
  readonly withIt: Ratio
  readonly againstIt: Ratio
}

/**
 * Constants of a single trace, or an edge pair, with a neighbour to its right at a gap from edge to edge.
 *
 * Of a pair with voltages v1 − v2 and current (i1 − i2)/2: C = ((C11 + C22)/2 − C12)/2, L = L11 + L22 − 2 L12, and
 * mutually half the difference of the two capacitances to the neighbour, and the difference of the two inductances.
 *
 * Throws RangeError when the row cannot be drawn or needs too many unknowns, or when its coupling is lost in rounding.
 */
export function rowConstants(
  section: CrossSection,
  relative: RelativePermittivity,
  neighbour: { readonly width: Metres; readonly gap: Metres },
  refinement: Refinement,
): RowConstants {
  const { width } = section.trace
  const trace = (left: Metres, of: Metres): RowTrace => ({
    middle: left + of / 2,
    width: of,
    grounded: false,
  })
  const start = section.gap === null ? 0 : width + section.gap
  const own = section.gap === null ? [trace(0, width)] : [trace(0, width), trace(start, width)]
  const row = [...own, trace(start + width + neighbour.gap, neighbour.width)]
  const matrices = lineMatrices(traceRowProblem(section, row, relative), refinement)
  const constants = section.gap === null ? ofSingle(matrices) : ofPair(matrices)
  for (const [name, value] of Object.entries(constants)) {
    if (!(value > 0 && Number.isFinite(value))) throw new RangeError(`${name} must be above 0, got ${value}`)
  }
  return constants
}

function ofSingle(matrices: LineMatrices): RowConstants {
  const { capacitance: c, inductance: l } = matrices
  const seen = (drive: number): number => drivenLine(matrices, [1, drive], 0).impedance
  return {
    capacitance: at(c, 0, 0),
    inductance: at(l, 0, 0),
    neighbourCapacitance: at(c, 1, 1),
    neighbourInductance: at(l, 1, 1),
    mutualCapacitance: -at(c, 0, 1),
    mutualInductance: at(l, 0, 1),
    withIt: seen(1) / seen(0),
    againstIt: seen(-1) / seen(0),
  }
}

/** Far trace, near trace, neighbour. */
function ofPair(matrices: LineMatrices): RowConstants {
  const { capacitance: c, inductance: l } = matrices
  const seen = (drive: number): number =>
    drivenLine(matrices, [-1, 1, drive], 0).impedance + drivenLine(matrices, [-1, 1, drive], 1).impedance
  return {
    capacitance: ((at(c, 0, 0) + at(c, 1, 1)) / 2 - at(c, 0, 1)) / 2,
    inductance: at(l, 0, 0) + at(l, 1, 1) - 2 * at(l, 0, 1),
    neighbourCapacitance: at(c, 2, 2),
    neighbourInductance: at(l, 2, 2),
    mutualCapacitance: (at(c, 0, 2) - at(c, 1, 2)) / 2,
    mutualInductance: at(l, 1, 2) - at(l, 0, 2),
    withIt: seen(1) / seen(0),
    againstIt: seen(-1) / seen(0),
  }
}

function at(matrix: Matrix<number>, row: number, column: number): number {
  return Number(matrix[row]?.[column])
}
