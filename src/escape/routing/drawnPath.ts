import type { Point } from '../../units/quantity.ts'
import { cornersOf } from './chamfer.ts'
import type { LatticePath } from './latticePaths.ts'
import type { Lattice } from './lattice.ts'

/** Corners of a lattice path, from where its net starts to where necks end. */
export function drawnPath(lattice: Lattice, path: LatticePath, start: Point): Point[] {
  const nodes = path.nodes.map((node) => lattice.pointAt(node))
  const [first] = nodes
  const last = path.nodes.at(-1) ?? -1
  const own = first !== undefined && first.x === start.x && first.y === start.y ? nodes : [start, ...nodes]
  return cornersOf([...own, lattice.exitPoint(last, path.exit)])
}
