import { gaussLegendre, legendreValues } from './gaussLegendre.ts'
import type { Sides } from './chargeView.ts'
import { MeshInfluence } from './meshInfluence.ts'
import type { Mesh } from './panels.ts'
import type { FieldProblem, Parity } from './wall.ts'

/** The equations of one picture, ready for its parities and for the picture without its dielectrics. */
export interface Assembly {
  readonly problem: FieldProblem
  readonly mesh: Mesh
  /**
   * Row after row, as many as unknowns: potential at a Gauss point of a conductor face, or normal field at one of an
   * interface, with the charge of both halves of a symmetric picture.
   */
  readonly influences: Readonly<Partial<Record<Parity, Float64Array>>>
}

/**
 * Charge density over 2π ε0, as Legendre coefficients, against potentials and fields at Gauss points; of a symmetric
 * picture for equal and for opposite charge, or for the one of them that is asked for, which takes less time.
 */
export function assemble(problem: FieldProblem, mesh: Mesh, only?: 'even' | 'odd'): Assembly {
  if (!problem.symmetric) {
    return { problem, mesh, influences: { whole: influences(problem, mesh, 'right').row } }
  }
  if (only === 'even') {
    return { problem, mesh, influences: { even: influences(problem, mesh, 'sum').row } }
  }
  if (only === 'odd') {
    return { problem, mesh, influences: { odd: influences(problem, mesh, 'difference').row } }
  }
  const { row: even, left: odd } = influences(problem, mesh, 'apart')
  makeSumAndDifference(even, odd)
  return { problem, mesh, influences: { even, odd } }
}

/** Of both entries at each place. Apart, as a long loop at the end of what runs seldom is compiled again each time. */
function makeSumAndDifference(first: Float64Array, second: Float64Array): void {
  for (let index = 0; index < first.length; index += 1) {
    const one = first[index] ?? NaN
    const other = second[index] ?? NaN
    first[index] = one + other
    second[index] = one - other
  }
}

/** All rows, one after the other: of what `sides` says, and of the left half where they are apart. */
interface Rows {
  readonly row: Float64Array
  readonly left: Float64Array
}

function influences(problem: FieldProblem, mesh: Mesh, sides: Sides): Rows {
  const { panels, order } = mesh
  const { nodes } = gaussLegendre(order)
  const count = panels.length * order
  const row = new Float64Array(count * count)
  const left = sides === 'apart' ? new Float64Array(count * count) : row
  const influence = new MeshInfluence(mesh, problem.lid, sides)
  panels.forEach((target, index) => {
    const normal = target.wall.conductor === null ? { x: -target.dy, y: target.dx } : null
    nodes.forEach((node, which) => {
      const along = node * target.half
      influence.lookFrom({ x: target.x + along * target.dx, y: target.y + along * target.dy }, normal)
      const start = (index * order + which) * count
      for (let source = 0; source < panels.length; source += 1) {
        influence.add(row, left, start + source * order, source, source === index ? node : null)
      }
    })
  })
  return { row, left }
}

/** Values of the density's polynomials at the Gauss points of a panel. */
export function valuesAtNodes(order: number): number[][] {
  return gaussLegendre(order).nodes.map((node) => legendreValues(order, node))
}
