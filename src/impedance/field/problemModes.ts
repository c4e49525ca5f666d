import type { CrossSection } from '../../section/crossSection.ts'
import { SPEED_OF_LIGHT } from '../../units/constants.ts'
import type { FaradsPerMetre, Ratio } from '../../units/quantity.ts'
import type { ModeConstants, Modes } from '../estimate.ts'
import { assemble } from './assemble.ts'
import { meshProblem, type Refinement } from './panels.ts'
import { type FieldSolution, solveProblem } from './solveProblem.ts'
import type { FieldProblem, Parity } from './wall.ts'

export interface FieldModes {
  readonly modes: Modes
  readonly unknowns: number
}

/**
 * Modes of one trace on the axis of a symmetric picture, of an edge-coupled pair about it, or of a broadside pair on it.
 *
 * Where all dielectrics are one, the empty picture's charges follow without solving it.
 */
export function problemModes(
  problem: FieldProblem,
  arrangement: CrossSection['arrangement'],
  refinement: Refinement,
): FieldModes {
  const assembly = assemble(problem, meshProblem(problem, refinement))
  const uniform = uniformPermittivity(problem)
  const pairOf = (parity: Parity): Solved => {
    const filled = solveProblem(assembly, parity, false)
    return {
      filled,
      empty: uniform === null ? solveProblem(assembly, parity, true) : thinned(filled, uniform),
    }
  }
  const even = pairOf('even')
  const { unknowns } = even.filled
  if (arrangement === 'single') {
    return { modes: { kind: 'single', line: modeOf(even, (charge) => entry(charge, 0, 0)) }, unknowns }
  }
  if (arrangement === 'edge pair') {
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

interface Solved {
  readonly filled: Pick<FieldSolution, 'capacitances' | 'unknowns'>
  readonly empty: Pick<FieldSolution, 'capacitances'>
}

/** The one permittivity of a picture without interfaces; null where there are several. */
export function uniformPermittivity({ walls }: FieldProblem): Ratio | null {
  const first = walls[0]?.left ?? null
  return walls.every((wall) => wall.left === first && wall.right === first) ? first : null
}

function thinned({ capacitances }: FieldSolution, permittivity: Ratio): Pick<FieldSolution, 'capacitances'> {
  return { capacitances: capacitances.map((row) => row.map((charge) => charge / permittivity)) }
}

function entry(charges: Charges, row: number, column: number): FaradsPerMetre {
  return Number(charges[row]?.[column])
}

function modeOf({ filled, empty }: Solved, of: (charges: Charges) => FaradsPerMetre): ModeConstants {
  const capacitance = of(filled.capacitances)
  const inAir = of(empty.capacitances)
  return {
    impedance: 1 / (SPEED_OF_LIGHT * Math.sqrt(capacitance * inAir)),
    effectivePermittivity: capacitance / inAir,
  }
}
