import type { Metres, Point, Ratio } from '../../units/quantity.ts'
import { gaussLegendre, legendreValues } from './gaussLegendre.ts'
import { Influence } from './influence.ts'
import { lineChargePotential } from './lineCharge.ts'
import type { Panel } from './panels.ts'
import type { FieldSolution } from './solveProblem.ts'
import type { FieldProblem, Parity } from './wall.ts'

/** Volts at a place of the plane, with conductors at volts of the order of one. */
export type Potential = (x: Metres, y: Metres) => number

/** Beyond this many half lengths, squared, a panel is a few line charges; beyond the other, two of them. */
const NEAR_SQUARED = 4 ** 2
const FAR_SQUARED = 16 ** 2
/** In half lengths; the potential moves by about as much of the panel's own. */
const AT_END = 1e-7

/**
 * The potential between the planes that belongs to a solution, by the same influences as the equations near a
 * panel and by line charges further off, to 1e-5 of the voltages besides the error of the solution, which is
 * largest at a corner.
 *
 * `voltages` are those of the driven conductors, one each; on the left half of a symmetric picture the
 * potential is the same for even parity and opposite for odd. Inside a closed conductor it is the
 * conductor's, up to the error of the solution. Above a lid and below the plane it has no meaning.
 * Throws RangeError when there is not a voltage for each conductor.
 */
export function potentialOf(
  problem: FieldProblem,
  parity: Parity,
  { densities, panels, unknowns }: FieldSolution,
  voltages: readonly Ratio[],
): Potential {
  if (voltages.length !== densities.length) {
    throw new RangeError(`${densities.length} conductors need as many voltages, got ${voltages.length}`)
  }
  const order = unknowns / panels.length
  const sources = panels.map((panel, index) =>
    sourceOf(
      panel,
      Float64Array.from({ length: order }, (_, k) =>
        voltages.reduce((sum, voltage, driven) => {
          return sum + voltage * Number(densities[driven]?.[index * order + k])
        }, 0),
      ),
    ),
  )
  const near = nearPotential(order, problem.lid)
  const half = (x: Metres, y: Metres): number => {
    let sum = 0
    for (const source of sources) {
      const { panel } = source
      const [dx, dy] = [x - panel.x, y - panel.y]
      const squared = (dx * dx + dy * dy) / (panel.half * panel.half)
      if (squared < NEAR_SQUARED) sum += near(source, x, y)
      else sum += farPotential(squared < FAR_SQUARED ? source.some : source.two, x, y, problem.lid)
    }
    return sum
  }
  if (parity === 'whole') return half
  const sign = parity === 'odd' ? -1 : 1
  // Seen from the mirrored place, the right half is the left one.
  return (x, y) => half(x, y) + sign * half(0 - x, y)
}

interface LineCharge {
  readonly x: Metres
  readonly y: Metres
  readonly charge: number
}

interface Source {
  readonly panel: Panel
  readonly density: Float64Array
  readonly some: readonly LineCharge[]
  readonly two: readonly LineCharge[]
}

function sourceOf(panel: Panel, density: Float64Array): Source {
  const charges = (points: number, at: (node: number) => number): LineCharge[] => {
    const { nodes, weights } = gaussLegendre(points)
    return nodes.map((node, index) => ({
      x: panel.x + node * panel.half * panel.dx,
      y: panel.y + node * panel.half * panel.dy,
      charge: Number(weights[index]) * panel.half * at(node),
    }))
  }
  const whole = (node: number): number =>
    legendreValues(density.length, node).reduce((sum, value, k) => sum + value * (density[k] ?? 0), 0)
  // Two points carry the first two moments exactly when they leave out the rest.
  const straight = (node: number): number => (density[0] ?? 0) + (density[1] ?? 0) * node
  return { panel, density, some: charges(density.length + 1, whole), two: charges(2, straight) }
}

function nearPotential(order: number, lid: Metres | null): (source: Source, x: Metres, y: Metres) => number {
  const influence = new Influence(order, lid)
  const row = new Float64Array(order)
  return ({ panel, density }, x, y) => {
    row.fill(0)
    influence.addPotential(row, 0, panel, besideEnd(panel, x, y), null)
    return row.reduce((sum, value, k) => sum + value * (density[k] ?? 0), 0)
  }
}

/** At the very end of a panel its potential is finite, but the closed form subtracts infinities: move inwards. */
function besideEnd({ x, y, half, dx, dy }: Panel, placeX: Metres, placeY: Metres): Point {
  const along = ((placeX - x) * dx + (placeY - y) * dy) / half
  const across = ((placeY - y) * dx - (placeX - x) * dy) / half
  if (Math.hypot(Math.abs(along) - 1, across) > AT_END) return { x: placeX, y: placeY }
  const inwards = Math.sign(along) * (1 - AT_END) * half
  return { x: x + inwards * dx, y: y + inwards * dy }
}

function farPotential(charges: readonly LineCharge[], x: Metres, y: Metres, lid: Metres | null): number {
  let sum = 0
  for (const each of charges) sum += each.charge * lineChargePotential(x, y, each.x, each.y, lid)
  return sum
}
