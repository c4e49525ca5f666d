import type { CrossSection } from '../../section/crossSection.ts'
import { SPEED_OF_LIGHT } from '../../units/constants.ts'
import type { FaradsPerMetre, Ratio } from '../../units/quantity.ts'
import type { ModeConstants, Modes } from '../estimate.ts'
import { type Assembly, assemble } from './assemble.ts'
import { meshProblem, type Refinement } from './panels.ts'
import { type FieldSolution, solveFilledAndEmpty, solveProblem } from './solveProblem.ts'
import type { FieldProblem, Parity } from './wall.ts'

export interface FieldModes {
  readonly modes: Modes
  readonly unknowns: number
}

/** How the capacitance of one trace in a mode follows from the charges of a picture. */
export interface ModeCharge {
  readonly name: 'line' | 'even' | 'odd'
  readonly parity: 'even' | 'odd'
  readonly of: (charges: FieldSolution['capacitances']) => FaradsPerMetre
}

/** The modes of one trace on the axis of a symmetric picture, of an edge pair about it, of a broadside pair on it; the odd one last. */
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

/** A single trace, or the odd mode of a pair: what its signal sees. */
export interface VerdictMode {
  readonly mode: ModeConstants
  readonly unknowns: number
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
  const { modes, unknowns } = solvedModes(problem, MODE_CHARGES[arrangement], refinement)
  const [first, second] = modes
  if (first === undefined) throw new RangeError(`${arrangement} has no mode`)
  return {
    modes:
      second === undefined ? { kind: 'single', line: first } : { kind: 'pair', even: first, odd: second },
    unknowns,
  }
}

/** The same of the one mode that a signal travels in: for an edge pair in about half the time. */
export function problemVerdict(
  problem: FieldProblem,
  arrangement: CrossSection['arrangement'],
  refinement: Refinement,
): VerdictMode {
  const { modes, unknowns } = solvedModes(problem, MODE_CHARGES[arrangement].slice(-1), refinement)
  const [mode] = modes
  if (mode === undefined) throw new RangeError(`${arrangement} has no mode`)
  return { mode, unknowns }
}

function solvedModes(
  problem: FieldProblem,
  wanted: readonly ModeCharge[],
  refinement: Refinement,
): { modes: ModeConstants[]; unknowns: number } {
  const mesh = meshProblem(problem, refinement)
  const parities = [...new Set(wanted.map(({ parity }) => parity))]
  const assembly = assemble(problem, mesh, parities.length === 1 ? parities[0] : undefined)
  const uniform = uniformPermittivity(problem)
  const solved = new Map(parities.map((parity) => [parity, solvedParity(assembly, parity, uniform)]))
  return {
    modes: wanted.flatMap((each) => {
      const charges = solved.get(each.parity)
      return charges === undefined ? [] : [modeOf(charges, each)]
    }),
    unknowns: mesh.panels.length * mesh.order,
  }
}

function solvedParity(assembly: Assembly, parity: Parity, uniform: Ratio | null): Solved {
  if (uniform === null) return solveFilledAndEmpty(assembly, parity)
  const filled = solveProblem(assembly, parity, false)
  return { filled, empty: thinned(filled, uniform) }
}

type Charges = FieldSolution['capacitances']

interface Solved {
  readonly filled: Pick<FieldSolution, 'capacitances'>
  readonly empty: Pick<FieldSolution, 'capacitances'>
}

/** The one permittivity of a picture without interfaces; null where there are several. */
function uniformPermittivity({ walls }: FieldProblem): Ratio | null {
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
