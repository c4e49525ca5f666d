import type { CrossSection } from '../section/crossSection.ts'
import { SPEED_OF_LIGHT } from '../units/constants.ts'
import type { FaradsPerMetre, HenriesPerMetre, Metres, Ohms, Ratio } from '../units/quantity.ts'
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
  /** Impedance while the neighbour swings as far as each trace, with it or against it, over that without a neighbour. */
  readonly withIt: Ratio
  readonly againstIt: Ratio
}

/**
 * Constants of a single trace, or an edge pair, with a neighbour to its right at a gap from edge to edge.
 *
 * Of a pair with voltages v1 − v2 and current (i1 − i2)/2: C = ((C11 + C22)/2 − C12)/2, L = L11 + L22 − 2 L12, and
 * mutually half the difference of the two capacitances to the neighbour, and the difference of the two inductances.
 *
 * `alone` is the impedance without a neighbour, at the same refinement; solved where it is left out.
 *
 * Throws RangeError when the row cannot be drawn or needs too many unknowns, or when its coupling is lost in rounding.
 */
export function rowConstants(
  section: CrossSection,
  relative: RelativePermittivity,
  neighbour: { readonly width: Metres; readonly gap: Metres },
  refinement: Refinement,
  alone: Ohms = impedanceAlone(section, relative, refinement),
): RowConstants {
  const own = ownTraces(section)
  const right = Math.max(...own.map(({ middle, width }) => middle + width / 2))
  const row = [...own, trace(right + neighbour.gap, neighbour.width)]
  const matrices = lineMatrices(traceRowProblem(section, row, relative), refinement)
  const switching = (drive: number): Ratio =>
    driven(matrices, [...ownVoltages(section), drive], own.length) / alone
  const constants = {
    ...(section.gap === null ? ofSingle(matrices) : ofPair(matrices)),
    withIt: switching(1),
    againstIt: switching(-1),
  }
  for (const [name, value] of Object.entries(constants)) {
    if (!(value > 0 && Number.isFinite(value))) throw new RangeError(`${name} must be above 0, got ${value}`)
  }
  return constants
}

/** Impedance of the trace, differential of the pair, with nothing beside it. */
export function impedanceAlone(
  section: CrossSection,
  relative: RelativePermittivity,
  refinement: Refinement,
): Ohms {
  const own = ownTraces(section)
  return driven(
    lineMatrices(traceRowProblem(section, own, relative), refinement),
    ownVoltages(section),
    own.length,
  )
}

function trace(left: Metres, width: Metres): RowTrace {
  return { middle: left + width / 2, width, grounded: false }
}

/** The trace, or the pair from left to right. */
function ownTraces({ trace: { width }, gap }: CrossSection): RowTrace[] {
  return gap === null ? [trace(0, width)] : [trace(0, width), trace(width + gap, width)]
}

function ownVoltages({ gap }: CrossSection): number[] {
  return gap === null ? [1] : [-1, 1]
}

/**
 * Sum of the impedances of the first conductors while all are driven to these voltages: of each V/(c √(Q Q₀)), with its
 * charge as it is and without dielectrics. Of a mode it is the mode's, and in one dielectric exact of any voltages.
 */
function driven({ capacitance, inAir }: LineMatrices, voltages: readonly number[], count: number): Ohms {
  const charge = (matrix: Matrix<FaradsPerMetre>, row: number): number =>
    voltages.reduce((sum, voltage, column) => sum + at(matrix, row, column) * voltage, 0)
  return voltages
    .slice(0, count)
    .reduce(
      (sum, voltage, row) =>
        sum + Math.abs(voltage) / (SPEED_OF_LIGHT * Math.sqrt(charge(capacitance, row) * charge(inAir, row))),
      0,
    )
}

type Coupled = Omit<RowConstants, 'withIt' | 'againstIt'>

function ofSingle({ capacitance: c, inductance: l }: LineMatrices): Coupled {
  return {
    capacitance: at(c, 0, 0),
    inductance: at(l, 0, 0),
    neighbourCapacitance: at(c, 1, 1),
    neighbourInductance: at(l, 1, 1),
    mutualCapacitance: -at(c, 0, 1),
    mutualInductance: at(l, 0, 1),
  }
}

/** Far trace, near trace, neighbour. */
function ofPair({ capacitance: c, inductance: l }: LineMatrices): Coupled {
  return {
    capacitance: ((at(c, 0, 0) + at(c, 1, 1)) / 2 - at(c, 0, 1)) / 2,
    inductance: at(l, 0, 0) + at(l, 1, 1) - 2 * at(l, 0, 1),
    neighbourCapacitance: at(c, 2, 2),
    neighbourInductance: at(l, 2, 2),
    mutualCapacitance: (at(c, 0, 2) - at(c, 1, 2)) / 2,
    mutualInductance: at(l, 1, 2) - at(l, 0, 2),
  }
}

function at(matrix: Matrix<number>, row: number, column: number): number {
  return Number(matrix[row]?.[column])
}
