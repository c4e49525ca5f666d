import { FarCharges, type Sides } from './farCharges.ts'
import { gaussLegendre, legendreValues } from './gaussLegendre.ts'
import { farPoints, Influence } from './influence.ts'
import type { Mesh, Panel } from './panels.ts'
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
  for (let index = 0; index < even.length; index += 1) {
    const [right, left] = [Number(even[index]), Number(odd[index])]
    even[index] = right + left
    odd[index] = right - left
  }
  return { problem, mesh, influences: { even, odd } }
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
  const far = new FarCharges(mesh, problem.lid)
  const addNear = nearInfluence(order, problem.lid)
  panels.forEach((target, index) => {
    const normal = target.wall.conductor === null ? { x: -target.dy, y: target.dx } : null
    nodes.forEach((node, which) => {
      const along = node * target.half
      const place = far.place({ x: target.x + along * target.dx, y: target.y + along * target.dy })
      const start = (index * order + which) * count
      for (let source = 0; source < panels.length; source += 1) {
        const panel = panels[source]
        if (panel === undefined) break
        const rows = { row, left, from: start + source * order }
        const more = source === index ? null : farPoints(panel, place.x, place.y, problem.lid)
        if (more !== null) far.add(rows, sides, source, more, place, normal)
        else addNear(rows, sides, panel, place, source === index ? node : null, normal)
      }
    })
  })
  return { row, left }
}

type AddNear = (
  rows: Rows & { readonly from: number },
  sides: Sides,
  panel: Panel,
  place: Place,
  own: number | null,
  normal: Place | null,
) => void

interface Place {
  readonly x: number
  readonly y: number
}

/** The left half seen from a place is the right one seen from the mirrored place. */
function nearInfluence(order: number, lid: number | null): AddNear {
  const influence = new Influence(order, lid)
  const seen = new Float64Array(order)
  const look = (panel: Panel, place: Place, own: number | null, normal: Place | null): void => {
    seen.fill(0)
    if (normal === null) influence.addPotential(seen, 0, panel, place, own)
    else influence.addField(seen, 0, panel, place, own, normal)
  }
  const addSeen = (row: Float64Array, from: number, sign: number): void => {
    for (let k = 0; k < order; k += 1) row[from + k] = Number(row[from + k]) + sign * Number(seen[k])
  }
  return ({ row, left, from }, sides, panel, place, own, normal) => {
    look(panel, place, own, normal)
    addSeen(row, from, 1)
    if (sides === 'right') return
    const mirrored = { x: -place.x, y: place.y }
    look(panel, mirrored, null, normal && { x: -normal.x, y: normal.y })
    addSeen(left, from, sides === 'difference' ? -1 : 1)
  }
}

/** Values of the density's polynomials at the Gauss points of a panel. */
export function valuesAtNodes(order: number): number[][] {
  return gaussLegendre(order).nodes.map((node) => legendreValues(order, node))
}
