import type { Metres, Point } from '../../units/quantity.ts'
import { ChargeView, type Sides } from './chargeView.ts'
import { FAR, Influence } from './influence.ts'
import { LocalInfluence } from './localInfluence.ts'
import { IN_LID, IN_PLANE, ITSELF } from './nearCharges.ts'
import { type PanelCharges, panelCharges, stepFor } from './panelCharges.ts'
import type { Mesh, Panel } from './panels.ts'

/** Half length of a panel over the plate distance: beyond, images further off than one period are near to it, too. */
const LONG = 0.25
/** Line charges in place of a panel: its order, at most 12, and as many more as FAR says. */
const MOST_POINTS = 12 + Math.max(...FAR.map(({ more }) => more))
/** Nearer than this in half lengths, squared, a panel is not a few line charges. */
const NEAR = Math.min(...FAR.map(({ squared }) => squared))

/**
 * Influences of the panels of a mesh with all their images at one place after the other: what `Influence` adds, for many
 * places and both halves of a symmetric picture, with every function of one place alone taken once for all.
 *
 * Of a panel and its images those that are near are integrated in closed form, all others together by a short
 * quadrature of the whole potential of line charges less that of the near ones. The left half is the right one seen from
 * the mirrored place; where only sum or difference of the halves is asked for, their logarithms are one.
 *
 * Not re-entrant: it keeps the place looked from, and scratch space.
 */
export class MeshInfluence {
  readonly #panels: readonly Panel[]
  readonly #order: number
  readonly #lid: Metres | null
  readonly #sides: Sides
  readonly #view: ChargeView
  readonly #sets: readonly PanelCharges[]
  readonly #local: LocalInfluence
  readonly #whole: Influence
  readonly #scratch: Float64Array
  /** What is seen of the line charges of one panel, from the place and from its mirrored place. */
  readonly #seen = new Float64Array(MOST_POINTS)
  readonly #seenLeft = new Float64Array(MOST_POINTS)
  #x = 0
  #y = 0
  #isField = false
  #normalX = 0
  #normalY = 0

  constructor({ panels, order }: Mesh, lid: Metres | null, sides: Sides) {
    this.#panels = panels
    this.#order = order
    this.#lid = lid
    this.#sides = sides
    const scale = lid === null ? 0 : Math.PI / lid
    this.#sets = panelCharges(panels, order, scale)
    this.#view = new ChargeView(lid, sides, farthest(panels), MOST_POINTS)
    this.#local = new LocalInfluence(order)
    this.#whole = new Influence(order, lid)
    this.#scratch = new Float64Array(order)
  }

  /** The place that influences are added at: potentials, or fields along a normal of length one. */
  lookFrom({ x, y }: Point, normal: Point | null): void {
    this.#x = x
    this.#y = y
    this.#isField = normal !== null
    this.#normalX = normal?.x ?? 0
    this.#normalY = normal?.y ?? 0
    this.#view.lookFrom(x, y, this.#normalX, this.#normalY)
  }

  /**
   * Adds those of one panel of the mesh, counted from 0, at `from`: to `row` and, where the halves are apart, those of
   * the left one to `left`. `own` is the coordinate −1 … 1 of the place on this very panel, else null.
   */
  add(row: Float64Array, left: Float64Array, from: number, index: number, own: number | null): void {
    const panel = this.#panels[index]
    if (panel === undefined) throw new RangeError(`the mesh has ${this.#panels.length} panels, got ${index}`)
    const sides = this.#sides
    const sign = sides === 'difference' ? -1 : 1
    if (this.#lid !== null && panel.half > LONG * this.#lid) {
      this.#addWhole(row, from, panel, 1, own, 1)
      if (sides !== 'right') this.#addWhole(left, from, panel, -1, null, sign)
      return
    }
    // In half lengths, squared: from the place to the panel and its two nearest images, across and upwards.
    const inverse = 1 / (panel.half * panel.half)
    const rise = (this.#y - panel.y) * (this.#y - panel.y)
    const sum = (this.#y + panel.y) * (this.#y + panel.y)
    const down = this.#lid === null ? Infinity : square(2 * this.#lid - (this.#y + panel.y))
    const across = (this.#x - panel.x) * (this.#x - panel.x)
    const itself = (across + rise) * inverse
    const inPlane = (across + sum) * inverse
    const inLid = (across + down) * inverse
    const right = nearOf(itself, inPlane, inLid)
    // Those further off than one plate distance are at least that far.
    let least = this.#lid === null ? Infinity : this.#lid * this.#lid * inverse
    least = Math.min(least, leastFar(itself, inPlane, inLid))
    let other = 0
    if (sides !== 'right') {
      const acrossLeft = (this.#x + panel.x) * (this.#x + panel.x)
      const itselfLeft = (acrossLeft + rise) * inverse
      const inPlaneLeft = (acrossLeft + sum) * inverse
      const inLidLeft = (acrossLeft + down) * inverse
      other = nearOf(itselfLeft, inPlaneLeft, inLidLeft)
      least = Math.min(least, leastFar(itselfLeft, inPlaneLeft, inLidLeft))
    }
    this.#addCharges(row, left, from, index, stepFor(least), right, other)
    if (right > 0) this.#addNear(row, from, panel, right, 1, own, 1)
    if (other > 0) this.#addNear(left, from, panel, other, -1, null, sign)
  }

  /** All that is not near, by line charges. */
  #addCharges(
    row: Float64Array,
    left: Float64Array,
    from: number,
    index: number,
    step: number,
    right: number,
    other: number,
  ): void {
    const charges = this.#sets[step]
    if (charges === undefined) return
    const seen = this.#seen
    const seenLeft = this.#seenLeft
    if (this.#isField) this.#view.fillFields(seen, seenLeft, charges, index, right, other)
    else this.#view.fillPotentials(seen, seenLeft, charges, index, right, other)
    addShares(row, from, seen, charges, index, this.#order)
    if (this.#sides === 'apart') addShares(left, from, seenLeft, charges, index, this.#order)
  }

  /** What is near, in closed form; an image of the panel seen from here is the panel seen from the mirrored place. */
  #addNear(
    row: Float64Array,
    from: number,
    panel: Panel,
    near: number,
    side: 1 | -1,
    own: number | null,
    sign: number,
  ): void {
    const local = this.#local
    const x = side * this.#x
    const y = this.#y
    const above = this.#lid === null ? 0 : 2 * this.#lid - y
    if (this.#isField) {
      const normalX = sign * side * this.#normalX
      const normalY = sign * this.#normalY
      // On the panel itself the mean of both sides has no normal part.
      if ((near & ITSELF) > 0 && own === null) local.addField(row, from, panel, x, y, normalX, normalY)
      if ((near & IN_PLANE) > 0) local.addField(row, from, panel, x, -y, -normalX, normalY)
      if ((near & IN_LID) > 0) local.addField(row, from, panel, x, above, -normalX, normalY)
      return
    }
    if ((near & ITSELF) > 0) {
      if (own === null) local.addPotential(row, from, panel, x, y, sign)
      else local.addOwnPotential(row, from, panel, own)
    }
    if ((near & IN_PLANE) > 0) local.addPotential(row, from, panel, x, -y, -sign)
    if ((near & IN_LID) > 0) local.addPotential(row, from, panel, x, above, -sign)
  }

  /** A panel that is long against the distance of the planes, with all its images. */
  #addWhole(
    row: Float64Array,
    from: number,
    panel: Panel,
    side: 1 | -1,
    own: number | null,
    sign: number,
  ): void {
    const seen = this.#scratch.fill(0)
    const place = { x: side * this.#x, y: this.#y }
    if (this.#isField) {
      this.#whole.addField(seen, 0, panel, place, own, { x: side * this.#normalX, y: this.#normalY })
    } else {
      this.#whole.addPotential(seen, 0, panel, place, own)
    }
    for (let k = 0; k < seen.length; k += 1) row[from + k] = Number(row[from + k]) + sign * Number(seen[k])
  }
}

/** Which of a panel, its image in the plane and that in the lid are near. */
function nearOf(itself: number, inPlane: number, inLid: number): number {
  return (itself <= NEAR ? ITSELF : 0) + (inPlane <= NEAR ? IN_PLANE : 0) + (inLid <= NEAR ? IN_LID : 0)
}

/** How far the nearest of the others is. */
function leastFar(itself: number, inPlane: number, inLid: number): number {
  return Math.min(
    itself > NEAR ? itself : Infinity,
    inPlane > NEAR ? inPlane : Infinity,
    inLid > NEAR ? inLid : Infinity,
  )
}

/** Adds to the entries of a row from `from` on what is seen of each line charge of a panel, times its shares. */
function addShares(
  row: Float64Array,
  from: number,
  seen: Float64Array,
  { points, shares }: PanelCharges,
  index: number,
  order: number,
): void {
  for (let k = 0; k < order; k += 1) {
    const start = (index * order + k) * points
    let sum = 0
    for (let point = 0; point < points; point += 1) {
      sum += (shares[start + point] ?? NaN) * (seen[point] ?? NaN)
    }
    row[from + k] = (row[from + k] ?? NaN) + sum
  }
}

function square(value: number): number {
  return value * value
}

function farthest(panels: readonly Panel[]): Metres {
  return Math.max(...panels.map(({ x, half }) => Math.abs(x) + half))
}
