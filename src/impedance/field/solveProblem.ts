import { type BlockedFactors, blockedFactors, solveFactored } from '../../numerics/blockedFactors.ts'
import { ELECTRIC_CONSTANT } from '../../units/constants.ts'
import type { FaradsPerMetre } from '../../units/quantity.ts'
import { type Assembly, valuesAtNodes } from './assemble.ts'
import type { Panel } from './panels.ts'
import type { Parity } from './wall.ts'

export interface FieldSolution {
  /**
   * capacitances[i][j]: free charge on conductor i with conductor j at one volt and all others at none. Of a
   * symmetric picture, the charge of conductor i on both halves, the left one counted with the parity's sign
   * turned to plus.
   */
  readonly capacitances: readonly (readonly FaradsPerMetre[])[]
  /** Legendre coefficients of the total charge density over 2π ε0 on each panel kept, for each driven conductor. */
  readonly densities: readonly Float64Array[]
  readonly panels: readonly Panel[]
  readonly unknowns: number
}

/** A picture as it is, and without its dielectrics. */
export interface FilledAndEmpty {
  readonly filled: FieldSolution
  readonly empty: FieldSolution
}

/**
 * Quasi-static solution by boundary elements: the unknown is the total charge density, free and bound, on
 * conductor faces and dielectric interfaces. A conductor face sees its potential, an interface the jump of
 * permittivity. `empty` leaves the dielectrics out: their interfaces then carry no charge.
 *
 * Source: C. Wei, R. F. Harrington, J. R. Mautz, T. K. Sarkar, "Multiconductor transmission lines in
 * multilayered dielectric media", IEEE Trans. MTT-32, 1984, pp. 439–450 (total-charge formulation).
 * Throws SolverError when the equations are singular to working precision, RangeError when the picture was not
 * assembled for the parity.
 */
export function solveProblem(assembly: Assembly, parity: Parity, empty: boolean): FieldSolution {
  const count = empty ? onConductors(assembly) : assembly.mesh.panels.length
  return solutionOf(assembly, equations(assembly, parity, count), parity, empty)
}

/**
 * Both solutions from one elimination: what comes first in it is the equations of the conductors' faces among
 * themselves, which are those of the empty picture.
 */
export function solveFilledAndEmpty(assembly: Assembly, parity: Parity): FilledAndEmpty {
  const factors = equations(assembly, parity, assembly.mesh.panels.length)
  return {
    filled: solutionOf(assembly, factors, parity, false),
    empty: solutionOf(assembly, factors, parity, true),
  }
}

/** Panels on faces of conductors: a mesh has them before those on interfaces. */
function onConductors({ mesh }: Assembly): number {
  const first = mesh.panels.findIndex(({ wall }) => wall.conductor === null)
  return first < 0 ? mesh.panels.length : first
}

function solutionOf(
  assembly: Assembly,
  factors: BlockedFactors,
  parity: Parity,
  empty: boolean,
): FieldSolution {
  const { mesh, problem } = assembly
  const { order } = mesh
  const panels = empty ? mesh.panels.slice(0, onConductors(assembly)) : mesh.panels
  const densities = Array.from({ length: problem.conductors }, (_, driven) => {
    const volts = new Float64Array(panels.length * order)
    panels.forEach(({ wall }, index) => {
      if (wall.conductor === driven) volts.fill(1, index * order, (index + 1) * order)
    })
    return solveFactored(factors, volts)
  })
  const halves = parity === 'whole' ? 1 : 2
  return {
    capacitances: Array.from({ length: problem.conductors }, (_, conductor) =>
      densities.map((density) => halves * freeCharge(panels, order, density, conductor, empty)),
    ),
    densities,
    panels,
    unknowns: panels.length * order,
  }
}

/** Room for the equations of one solution after the other. */
let room = new Float64Array(0)

/** Factors of the equations of the first `count` panels; they hold until the next are made. */
function equations({ mesh, influences }: Assembly, parity: Parity, count: number): BlockedFactors {
  const { order, panels } = mesh
  const seen = influences[parity]
  if (seen === undefined) throw new RangeError(`the picture is not assembled for ${parity} charges`)
  const size = count * order
  const all = panels.length * order
  if (room.length < size * size) room = new Float64Array(size * size)
  const polynomials = valuesAtNodes(order)
  let leading = 0
  for (let row = 0; row < size; row += 1) {
    const index = Math.floor(row / order)
    const wall = panels[index]?.wall
    if (wall === undefined || wall.conductor !== null) {
      copyRow(room, row * size, seen, row * all, size, 1)
      leading = row + 1
    } else {
      // (ε_left − ε_right) E_mean + (ε_left + ε_right) σ / 2ε0 = 0, times 2π ε0.
      copyRow(room, row * size, seen, row * all, size, wall.left - wall.right)
      const own = Math.PI * (wall.left + wall.right)
      addRow(room, row * size + index * order, polynomials[row - index * order] ?? [], own)
    }
  }
  return blockedFactors(room, size, leading)
}

/** A short function, called for each row, is compiled early. */
function copyRow(
  into: Float64Array,
  to: number,
  from: Float64Array,
  start: number,
  count: number,
  factor: number,
): void {
  for (let column = 0; column < count; column += 1) {
    into[to + column] = factor * (from[start + column] ?? NaN)
  }
}

function addRow(into: Float64Array, to: number, values: readonly number[], factor: number): void {
  values.forEach((value, k) => {
    into[to + k] = (into[to + k] ?? NaN) + factor * value
  })
}

function freeCharge(
  panels: readonly Panel[],
  order: number,
  density: Float64Array,
  conductor: number,
  empty: boolean,
): FaradsPerMetre {
  let charge = 0
  panels.forEach(({ wall, half }, index) => {
    if (wall.conductor !== conductor) return
    charge += (empty ? 1 : wall.left) * 2 * half * Number(density[index * order])
  })
  return 2 * Math.PI * ELECTRIC_CONSTANT * charge
}
