import type { Metres, Point } from '../../units/quantity.ts'
import { ChargeView, IN_LID, IN_PLANE, ITSELF } from './chargeView.ts'
import { FAR, Influence } from './influence.ts'
import { LocalInfluence } from './localInfluence.ts'
import { type PanelCharges, panelCharges, stepFor } from './panelCharges.ts'
import type { Mesh, Panel } from './panels.ts'

/**
 * Which side of a symmetric picture influences are of: right and left half apart, their sum or difference at once, or
 * the right half alone.
 */
export type Sides = 'apart' | 'sum' | 'difference' | 'right'

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
  #least = 0
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
    this.#view = new ChargeView(lid, Math.max(...panels.map(({ x, half }) => Math.abs(x) + half)))
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
    const right = this.#nearOf(panel, this.#x)
    let least = this.#least
    let other = 0
    if (sides !== 'right') {
      other = this.#nearOf(panel, -this.#x)
      least = Math.min(least, this.#least)
    }
    this.#addCharges(row, left, from, index, stepFor(least), right, other)
    if (right > 0) this.#addNear(row, from, panel, right, 1, own, 1)
    if (other > 0) this.#addNear(left, from, panel, other, -1, null, sign)
  }

  /**
   * What of a panel is near the place, or its mirrored place at −x; `least` keeps how far the nearest of the others is, in
   * half lengths, squared: those further off than one plate distance are at least that far.
   */
  #nearOf(panel: Panel, x: number): number {
    const lid = this.#lid
    const inverse = 1 / (panel.half * panel.half)
    const across = (x - panel.x) * (x - panel.x)
    const rise = this.#y - panel.y
    const sum = this.#y + panel.y
    const itself = (across + rise * rise) * inverse
    const inPlane = (across + sum * sum) * inverse
    const inLid = lid === null ? Infinity : (across + (2 * lid - sum) * (2 * lid - sum)) * inverse
    let near = 0
    let least = lid === null ? Infinity : lid * lid * inverse
    if (itself <= NEAR) near += ITSELF
    else least = Math.min(least, itself)
    if (inPlane <= NEAR) near += IN_PLANE
    else least = Math.min(least, inPlane)
    if (inLid <= NEAR) near += IN_LID
    else least = Math.min(least, inLid)
    this.#least = least
    return near
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
    this.#see(charges, index, right, other)
    const seen = this.#seen
    const seenLeft = this.#seenLeft
    const order = this.#order
    const apart = this.#sides === 'apart'
    for (let point = 0; point < charges.points; point += 1) {
      const shares = (index * charges.points + point) * order
      for (let k = 0; k < order; k += 1) {
        const share = Number(charges.shares[shares + k])
        row[from + k] = Number(row[from + k]) + share * Number(seen[point])
        if (apart) left[from + k] = Number(left[from + k]) + share * Number(seenLeft[point])
      }
    }
  }

  /** What `sides` says of each line charge; `seenLeft` keeps the left ones where they are apart. */
  #see(charges: PanelCharges, index: number, near: number, nearLeft: number): void {
    const view = this.#view
    const sides = this.#sides
    const right = this.#seen
    const left = this.#seenLeft
    const { points } = charges
    if (this.#isField) {
      view.fillFields(right, charges, index, 1, near)
      if (sides !== 'right') view.fillFields(left, charges, index, -1, nearLeft)
      if (sides === 'sum') addTo(right, left, points, 1)
      else if (sides === 'difference') addTo(right, left, points, -1)
      return
    }
    view.fillRatios(right, charges, index, 1, near)
    if (sides !== 'right') view.fillRatios(left, charges, index, -1, nearLeft)
    // Halves together have one logarithm.
    if (sides === 'sum') multiplyTo(right, left, points)
    else if (sides === 'difference') divideTo(right, left, points)
    toPotentials(right, points)
    if (sides === 'apart') toPotentials(left, points)
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
    const [x, y] = [side * this.#x, this.#y]
    const above = this.#lid === null ? 0 : 2 * this.#lid - y
    if (this.#isField) {
      const [normalX, normalY] = [sign * side * this.#normalX, sign * this.#normalY]
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

function toPotentials(ratios: Float64Array, count: number): void {
  for (let at = 0; at < count; at += 1) ratios[at] = 0.5 * Math.log(Number(ratios[at]))
}

function addTo(these: Float64Array, others: Float64Array, count: number, sign: 1 | -1): void {
  for (let at = 0; at < count; at += 1) these[at] = Number(these[at]) + sign * Number(others[at])
}

function multiplyTo(these: Float64Array, others: Float64Array, count: number): void {
  for (let at = 0; at < count; at += 1) these[at] = Number(these[at]) * Number(others[at])
}

function divideTo(these: Float64Array, others: Float64Array, count: number): void {
  for (let at = 0; at < count; at += 1) these[at] = Number(these[at]) / Number(others[at])
}
