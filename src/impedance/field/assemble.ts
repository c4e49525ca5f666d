import { gaussLegendre, legendreValues } from './gaussLegendre.ts'
import { Influence } from './influence.ts'
import type { Mesh } from './panels.ts'
import type { FieldProblem } from './wall.ts'

/** The equations of one picture, ready for every parity and for the picture without its dielectrics. */
export interface Assembly {
  readonly problem: FieldProblem
  readonly mesh: Mesh
  /** Row by row: potential at a Gauss point of a conductor face, or normal field at one of an interface. */
  readonly direct: readonly Float64Array[]
  /** The same of the left half of a symmetric picture, for equal charge; null where there is no symmetry. */
  readonly mirrored: readonly Float64Array[] | null
}

/** Charge density over 2π ε0, as Legendre coefficients, against potentials and fields at Gauss points. */
export function assemble(problem: FieldProblem, mesh: Mesh): Assembly {
  const direct = rowsSeenFrom(problem, mesh, 1)
  return { problem, mesh, direct, mirrored: problem.symmetric ? rowsSeenFrom(problem, mesh, -1) : null }
}

/** `side` −1 looks at the panels from the mirrored places, which is the mirrored panels seen from the true ones. */
function rowsSeenFrom(problem: FieldProblem, { panels, order }: Mesh, side: 1 | -1): Float64Array[] {
  const { nodes } = gaussLegendre(order)
  const influence = new Influence(order, problem.lid)
  return panels.flatMap((target) => {
    const normal = { x: -target.dy * side, y: target.dx }
    return nodes.map((node) => {
      const along = node * target.half
      const place = { x: side * (target.x + along * target.dx), y: target.y + along * target.dy }
      const row = new Float64Array(panels.length * order)
      panels.forEach((source, index) => {
        const own = source === target && side === 1 ? node : null
        if (target.wall.conductor === null) influence.addField(row, index * order, source, place, own, normal)
        else influence.addPotential(row, index * order, source, place, own)
      })
      return row
    })
  })
}

/** Values of the density's polynomials at the Gauss points of a panel. */
export function valuesAtNodes(order: number): number[][] {
  return gaussLegendre(order).nodes.map((node) => legendreValues(order, node))
}
