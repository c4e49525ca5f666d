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

/** How the capacitance of one trace in a mode follows from the charges of a picture. */
export interface ModeCharge {
  readonly name: 'line' | 'even' | 'odd'
  readonly parity: Parity
  readonly of: (charges: FieldSolution['capacitances']) => FaradsPerMetre
}

/** The modes of one trace on the axis of a symmetric picture, of an edge pair about it, of a broadside pair on it. */
export const MODE_CHARGES: Readonly<Record<CrossSection['arrangement'], readonly ModeCharge[]>> = {
  single: [{ name: 'line', parity: 'even', of: (charges) => entry(charges, 0, 0) }],
  // Each trace lies on one side of the axis: its charge is half of both.
  'edge pair': [
    { name: 'even', parity: 'even', of: (charges) => entry(charges, 0, 0) / 2 },
    { name: 'odd', parity: 'odd', of: (charges) => entry(charges, 0, 0) / 2 },
  ],
  'broadside pair': [
    { name: 'even', parity: 'even', of: (charges) => together(charges, 1) },
    { name: 'odd', parity: 'even', of: (charges) => together(charges, -1) },
  ],
}

/**
 * Modes of a symmetric picture with one trace or a pair.
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
  const solved = new Map<Parity, Solved>()
  const solve = (parity: Parity): Solved => {
    const known = solved.get(parity)
    if (known !== undefined) return known
    const filled = solveProblem(assembly, parity, false)
    const empty = uniform === null ? solveProblem(assembly, parity, true) : thinned(filled, uniform)
    solved.set(parity, { filled, empty })
    return { filled, empty }
  }
  const mode = (name: ModeCharge['name']): ModeConstants => {
    const found = MODE_CHARGES[arrangement].find((each) => each.name === name)
    if (found === undefined) throw new RangeError(`${arrangement} has no mode ${name}`)
    return modeOf(solve(found.parity), found)
  }
  const modes: Modes =
    arrangement === 'single'
      ? { kind: 'single', line: mode('line') }
      : { kind: 'pair', even: mode('even'), odd: mode('odd') }
  return { modes, unknowns: solve('even').filled.unknowns }
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

function together(charges: Charges, sign: 1 | -1): FaradsPerMetre {
  return (
    (entry(charges, 0, 0) + entry(charges, 1, 1) + sign * (entry(charges, 0, 1) + entry(charges, 1, 0))) / 2
  )
}

function modeOf({ filled, empty }: Solved, { of }: ModeCharge): ModeConstants {
  const capacitance = of(filled.capacitances)
  const inAir = of(empty.capacitances)
  return {
    impedance: 1 / (SPEED_OF_LIGHT * Math.sqrt(capacitance * inAir)),
    effectivePermittivity: capacitance / inAir,
  }
}
