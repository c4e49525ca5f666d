import { type Factored, factor } from '../../numerics/dense.ts'
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
  readonly densities: readonly (readonly number[])[]
  readonly panels: readonly Panel[]
  readonly unknowns: number
}

/**
 * Quasi-static solution by boundary elements: the unknown is the total charge density, free and bound, on
 * conductor faces and dielectric interfaces. A conductor face sees its potential, an interface the jump of
 * permittivity. `empty` leaves the dielectrics out: their interfaces then carry no charge.
 *
 * Source: C. Wei, R. F. Harrington, J. R. Mautz, T. K. Sarkar, "Multiconductor transmission lines in
 * multilayered dielectric media", IEEE Trans. MTT-32, 1984, pp. 439–450 (total-charge formulation).
 * Throws SolverError when the equations are singular to working precision.
 */
export function solveProblem(assembly: Assembly, parity: Parity, empty: boolean): FieldSolution {
  const { mesh, problem } = assembly
  const { order } = mesh
  const kept = mesh.panels.flatMap((panel, index) => (empty && panel.wall.conductor === null ? [] : [index]))
  const panels = kept.flatMap((index) => mesh.panels[index] ?? [])
  const system = equations(assembly, parity, kept)
  const densities = Array.from({ length: problem.conductors }, (_, driven) =>
    system.solve(
      panels.flatMap((panel) => new Array<number>(order).fill(panel.wall.conductor === driven ? 1 : 0)),
    ),
  )
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

function equations({ mesh, direct, mirrored }: Assembly, parity: Parity, kept: readonly number[]): Factored {
  const { order, panels } = mesh
  const columns = kept.flatMap((index) => Array.from({ length: order }, (_, k) => index * order + k))
  const sign = parity === 'odd' ? -1 : 1
  const polynomials = valuesAtNodes(order)
  const rows = columns.map((row) => {
    const seen = direct[row]
    const seenMirrored = parity === 'whole' ? undefined : mirrored?.[row]
    return columns.map(
      (column) => Number(seen?.[column]) + (seenMirrored ? sign * Number(seenMirrored[column]) : 0),
    )
  })
  kept.forEach((index, place) => {
    const wall = panels[index]?.wall
    if (wall?.conductor !== null) return
    // (ε_left − ε_right) E_mean + (ε_left + ε_right) σ / 2ε0 = 0, times 2π ε0.
    polynomials.forEach((values, node) => {
      const row = rows[place * order + node] ?? []
      for (let column = 0; column < row.length; column += 1) {
        row[column] = (wall.left - wall.right) * Number(row[column])
      }
      values.forEach((value, k) => {
        const column = place * order + k
        row[column] = Number(row[column]) + Math.PI * (wall.left + wall.right) * value
      })
    })
  })
  return factor(rows)
}

function freeCharge(
  panels: readonly Panel[],
  order: number,
  density: readonly number[],
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
