import { gaussLegendre, legendreValues } from './gaussLegendre.ts'
import { lineChargePotential } from './lineCharge.ts'
import { lineChargeField } from './lineChargeField.ts'
import { LocalInfluence } from './localInfluence.ts'
import type { Panel } from './panels.ts'
import { restSlope, restValue } from './parallelPlates.ts'

/**
 * From so many half lengths, squared, a panel with all its images is a few line charges: as many more as stand here
 * than its density has coefficients. Capacitances move by less than 1e-8.
 */
export const FAR: readonly { readonly squared: number; readonly more: number }[] = [
  { squared: 20 ** 2, more: 0 },
  { squared: 9 ** 2, more: 1 },
  { squared: 4 ** 2, more: 2 },
]

interface Place {
  readonly x: number
  readonly y: number
}

/** Where the influences of one panel's densities P_0 … P_{order−1} are added. */
interface Columns {
  readonly row: Float64Array
  readonly from: number
  readonly order: number
}

/**
 * Influence of panels between the plane y = 0 and, where there is one, the plane y = lid, images included, in
 * units in which charge is counted over 2π ε0.
 *
 * The nearest images are integrated in closed form like the panel itself; the others, further off than one
 * period, by a short quadrature. A panel that is far off with all its images is integrated by quadrature at
 * once. `own` is the place's coordinate −1 … 1 on the panel itself, else null. Not
 * re-entrant: it keeps scratch space.
 */
export class Influence {
  readonly #order: number
  readonly #lid: number | null
  readonly #shifts: readonly number[]
  readonly #local: LocalInfluence

  constructor(order: number, lid: number | null) {
    this.#order = order
    this.#lid = lid
    this.#shifts = lid === null ? [] : [2 * lid, -2 * lid]
    this.#local = new LocalInfluence(order)
  }

  /** Adds the potential −∫ σ ln r at a place. */
  addPotential(row: Float64Array, from: number, panel: Panel, { x, y }: Place, own: number | null): void {
    const columns = { row, from, order: this.#order }
    const more = own === null ? farPoints(panel, x, y, this.#lid) : null
    if (more !== null) {
      addFar(columns, more, panel, { x, y }, this.#lid, null)
      return
    }
    const local = this.#local
    if (own === null) local.addPotential(row, from, panel, x, y, 1)
    else local.addOwnPotential(row, from, panel, own)
    // An image of the panel seen from here is the panel seen from the mirrored place.
    local.addPotential(row, from, panel, x, -y, -1)
    for (const shift of this.#shifts) {
      local.addPotential(row, from, panel, x, y + shift, 1)
      local.addPotential(row, from, panel, x, -y + shift, -1)
    }
    if (this.#lid !== null) addRest(columns, panel, { x, y }, this.#lid, null)
  }

  /** Adds the field along `normal`; on the panel itself the mean of both sides, which has no normal part. */
  addField(
    row: Float64Array,
    from: number,
    panel: Panel,
    { x, y }: Place,
    own: number | null,
    normal: Place,
  ): void {
    const columns = { row, from, order: this.#order }
    const more = own === null ? farPoints(panel, x, y, this.#lid) : null
    if (more !== null) {
      addFar(columns, more, panel, { x, y }, this.#lid, normal)
      return
    }
    const local = this.#local
    if (own === null) local.addField(row, from, panel, x, y, normal.x, normal.y)
    local.addField(row, from, panel, x, -y, -normal.x, normal.y)
    for (const shift of this.#shifts) {
      local.addField(row, from, panel, x, y + shift, normal.x, normal.y)
      local.addField(row, from, panel, x, -y + shift, -normal.x, normal.y)
    }
    if (this.#lid !== null) addRest(columns, panel, { x, y }, this.#lid, normal)
  }
}

/** Line charges besides; null where the panel, its image in the plane or the one in the lid is near. */
function farPoints(panel: Panel, x: number, y: number, lid: number | null): number | null {
  const across = (x - panel.x) * (x - panel.x)
  const above = y + panel.y
  const under = lid === null ? Infinity : 2 * lid - above
  const upwards = Math.min(Math.abs(y - panel.y), above, under)
  const squared = (across + upwards * upwards) / (panel.half * panel.half)
  for (const step of FAR) if (squared > step.squared) return step.more
  return null
}

/** A panel far off with all its images: potential, or field along a normal. */
function addFar(
  { row, from, order }: Columns,
  more: number,
  panel: Panel,
  { x, y }: Place,
  lid: number | null,
  normal: Place | null,
): void {
  const { nodes, weights, polynomials } = rule(order, order + more)
  for (let point = 0; point < nodes.length; point += 1) {
    const step = Number(nodes[point]) * panel.half
    const fromX = panel.x + step * panel.dx
    const fromY = panel.y + step * panel.dy
    const seen =
      normal === null
        ? lineChargePotential(x, y, fromX, fromY, lid)
        : lineChargeField([x, y], [fromX, fromY], lid, [normal.x, normal.y])
    const share = Number(weights[point]) * panel.half * seen
    const values = polynomials[point] ?? []
    for (let k = 0; k < order; k += 1) {
      row[from + k] = Number(row[from + k]) + share * Number(values[k])
    }
  }
}

/** The far images: potential, or field along a normal. */
function addRest(
  { row, from, order }: Columns,
  panel: Panel,
  place: Place,
  lid: number,
  normal: Place | null,
): void {
  const scale = Math.PI / (2 * lid)
  const { nodes, weights, polynomials } = restRule(order, panel.half / lid)
  for (let point = 0; point < nodes.length; point += 1) {
    const step = Number(nodes[point]) * panel.half
    const u = scale * (place.x - panel.x - step * panel.dx)
    const v = scale * (place.y - panel.y - step * panel.dy)
    const image = scale * (-place.y - panel.y - step * panel.dy)
    const weight = Number(weights[point]) * panel.half
    const share =
      normal === null
        ? -weight * (restValue(u, v) - restValue(u, image))
        : weight * scale * restField(u, v, image, normal)
    const values = polynomials[point] ?? []
    for (let k = 0; k < order; k += 1) {
      row[from + k] = Number(row[from + k]) + share * Number(values[k])
    }
  }
}

/** Normal field of the far images: the derivative of the rest at the place and at its image. */
function restField(u: number, v: number, image: number, normal: Place): number {
  const direct = restSlope(u, v)
  const mirrored = restSlope(u, image)
  return normal.x * (direct.re - mirrored.re) - normal.y * (direct.im + mirrored.im)
}

export interface Rule {
  readonly nodes: readonly number[]
  readonly weights: readonly number[]
  readonly polynomials: readonly (readonly number[])[]
}

const rules = new Map<number, Rule>()

/** The far images vary over twice the plate distance: short panels need no more points than the density. */
function restRule(order: number, halfOverLid: number): Rule {
  return rule(order, order + (halfOverLid < 0.05 ? 0 : halfOverLid < 0.5 ? 1 : 4))
}

/** Gauss points with the values of the density's polynomials. */
export function rule(order: number, points: number): Rule {
  const key = 1000 * order + points
  const kept = rules.get(key)
  if (kept) return kept
  const { nodes, weights } = gaussLegendre(points)
  const made = { nodes, weights, polynomials: nodes.map((node) => legendreValues(order, node)) }
  rules.set(key, made)
  return made
}
