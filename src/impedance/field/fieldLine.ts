import type { CrossSection } from '../../section/crossSection.ts'
import { SPEED_OF_LIGHT } from '../../units/constants.ts'
import type { FaradsPerMetre } from '../../units/quantity.ts'
import type { ModeConstants, Modes } from '../estimate.ts'
import { assemble } from './assemble.ts'
import { meshProblem, type Refinement } from './panels.ts'
import type { RelativePermittivity } from './scene.ts'
import { sectionProblem } from './sectionProblem.ts'
import { type FieldSolution, solveProblem } from './solveProblem.ts'
import type { Parity } from './wall.ts'

export interface FieldModes {
  readonly modes: Modes
  readonly unknowns: number
}

/** Modes of a cross-section at one refinement. */
export function fieldModes(
  section: CrossSection,
  relative: RelativePermittivity,
  refinement: Refinement,
): FieldModes {
  const problem = sectionProblem(section, relative)
  const assembly = assemble(problem, meshProblem(problem, refinement))
  const pairOf = (parity: Parity): { filled: FieldSolution; empty: FieldSolution } => ({
    filled: solveProblem(assembly, parity, false),
    empty: solveProblem(assembly, parity, true),
  })
  const even = pairOf('even')
  const { unknowns } = even.filled
  if (section.arrangement === 'single') {
    return { modes: { kind: 'single', line: modeOf(even, (charge) => entry(charge, 0, 0)) }, unknowns }
  }
  if (section.arrangement === 'edge pair') {
    // Each trace lies on one side of the axis: its charge is half of both.
    const half = (charge: Charges): FaradsPerMetre => entry(charge, 0, 0) / 2
    return { modes: { kind: 'pair', even: modeOf(even, half), odd: modeOf(pairOf('odd'), half) }, unknowns }
  }
  const together =
    (sign: 1 | -1) =>
    (charge: Charges): FaradsPerMetre =>
      (entry(charge, 0, 0) + entry(charge, 1, 1) + sign * (entry(charge, 0, 1) + entry(charge, 1, 0))) / 2
  return {
    modes: { kind: 'pair', even: modeOf(even, together(1)), odd: modeOf(even, together(-1)) },
    unknowns,
  }
}

type Charges = FieldSolution['capacitances']

function entry(charges: Charges, row: number, column: number): FaradsPerMetre {
  return Number(charges[row]?.[column])
}

function modeOf(
  { filled, empty }: { filled: FieldSolution; empty: FieldSolution },
  of: (charges: Charges) => FaradsPerMetre,
): ModeConstants {
  const capacitance = of(filled.capacitances)
  const inAir = of(empty.capacitances)
  return {
    impedance: 1 / (SPEED_OF_LIGHT * Math.sqrt(capacitance * inAir)),
    effectivePermittivity: capacitance / inAir,
  }
}
