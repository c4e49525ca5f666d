import type { Metres } from '../../units/quantity.ts'
import { IN_LID, IN_PLANE, ITSELF, leaveOut } from './nearCharges.ts'
import type { PanelCharges } from './panelCharges.ts'

/**
 * Which side of a symmetric picture influences are of: right and left half apart, their sum or difference at once, or
 * the right half alone.
 */
export type Sides = 'apart' | 'sum' | 'difference' | 'right'

/** Products of exponentials hold this many times the plate distance over π without overflow. */
const WIDEST = 300
/** Scratch for what is seen of the line charges of one panel. */
interface Scratch {
  readonly right: Float64Array
  readonly left: Float64Array
}

/**
 * Line charges of 2π ε0 per metre above a plane at y = 0 and, where there is one, below another at y = `lid`, with all
 * their images, as seen from one place after the other; those of the left half of a symmetric picture are the right ones
 * seen from the mirrored place at −x, with the normal mirrored, too. `near` and `nearLeft` say which of charge and
 * nearest images are left out.
 *
 *     potential ½ ln (M / N),  N = 2 [sinh² (a/2) + sin² ((s − s′)/2)],  M = 2 [sinh² (a/2) + sin² ((s + s′)/2)],
 *
 * a, s = π/lid · (Δx, y). This is the sum of `lineChargePotential` written so that close places lose no digits: N is
 * (π/lid)² r² / 2 there. With one plane it is that sum itself. Functions of differences follow by the addition theorems
 * from those of either place, taken once for all. Both halves share those of y, and together they have one logarithm.
 *
 * Not re-entrant: it keeps the place, and scratch space.
 */
export class ChargeView {
  readonly #lid: Metres | null
  readonly #sides: Sides
  readonly #scale: number
  readonly #wide: boolean
  /** M and N, or sinh (a/2) and what fields add up to. */
  readonly #over: Scratch
  readonly #under: Scratch
  #x = 0
  #y = 0
  #normalX = 0
  #normalY = 0
  #grown = 1
  #decayed = 1
  #cosine = 1
  #sine = 0

  /** `farthest`: places and charges are no farther than this from x = 0. No panel has more line charges than `most`. */
  constructor(lid: Metres | null, sides: Sides, farthest: Metres, most: number) {
    this.#lid = lid
    this.#sides = sides
    this.#scale = lid === null ? 0 : Math.PI / lid
    this.#wide = this.#scale * farthest > WIDEST
    this.#over = { right: new Float64Array(most), left: new Float64Array(most) }
    this.#under = { right: new Float64Array(most), left: new Float64Array(most) }
  }

  /** The place, and the normal that fields are taken along. */
  lookFrom(x: Metres, y: Metres, normalX: number, normalY: number): void {
    this.#x = x
    this.#y = y
    this.#normalX = normalX
    this.#normalY = normalY
    this.#grown = Math.exp((this.#scale * x) / 2)
    this.#decayed = 1 / this.#grown
    this.#cosine = Math.cos((this.#scale * y) / 2)
    this.#sine = Math.sin((this.#scale * y) / 2)
  }

  /**
   * What the sides say of the potential of each line charge of a panel, counted from 0; where they are apart, of the left
   * half in `seenLeft`. Many at once, as a number that a function gives back is made anew each time.
   */
  fillPotentials(
    seen: Float64Array,
    seenLeft: Float64Array,
    charges: PanelCharges,
    index: number,
    near: number,
    nearLeft: number,
  ): void {
    const over = this.#over
    const under = this.#under
    const sides = this.#sides
    if (this.#lid === null) this.#fillOpen(charges, index, near, nearLeft)
    else this.#fillClosed(charges, index, near, nearLeft, this.#lid)
    for (let which = 0; which < charges.points; which += 1) {
      const up = over.right[which] ?? NaN
      const down = under.right[which] ?? NaN
      const upLeft = over.left[which] ?? NaN
      const downLeft = under.left[which] ?? NaN
      if (sides === 'sum') seen[which] = 0.5 * Math.log((up * upLeft) / (down * downLeft))
      else if (sides === 'difference') seen[which] = 0.5 * Math.log((up * downLeft) / (down * upLeft))
      else {
        seen[which] = 0.5 * Math.log(up / down)
        if (sides === 'apart') seenLeft[which] = 0.5 * Math.log(upLeft / downLeft)
      }
    }
  }

  /** Squares of the distances to the image in the plane and to the charge itself. */
  #fillOpen({ points, x, y }: PanelCharges, index: number, near: number, nearLeft: number): void {
    const over = this.#over
    const under = this.#under
    const placeX = this.#x
    const placeY = this.#y
    for (let which = 0; which < points; which += 1) {
      const at = index * points + which
      const fromX = x[at] ?? NaN
      const fromY = y[at] ?? NaN
      const rise = (placeY - fromY) * (placeY - fromY)
      const sum = (placeY + fromY) * (placeY + fromY)
      const across = (placeX - fromX) * (placeX - fromX)
      const acrossLeft = (placeX + fromX) * (placeX + fromX)
      over.right[which] = (near & IN_PLANE) > 0 ? 1 : across + sum
      under.right[which] = (near & ITSELF) > 0 ? 1 : across + rise
      over.left[which] = (nearLeft & IN_PLANE) > 0 ? 1 : acrossLeft + sum
      under.left[which] = (nearLeft & ITSELF) > 0 ? 1 : acrossLeft + rise
    }
  }

  /** M / 2 and N / 2. */
  #fillClosed(charges: PanelCharges, index: number, near: number, nearLeft: number, lid: Metres): void {
    const { points, sine, cosine } = charges
    const over = this.#over
    const under = this.#under
    const ownSine = this.#sine
    const ownCosine = this.#cosine
    this.#fillSinh(charges, index)
    for (let which = 0; which < points; which += 1) {
      const at = index * points + which
      const one = ownSine * (cosine[at] ?? NaN)
      const two = ownCosine * (sine[at] ?? NaN)
      const low = (one - two) * (one - two)
      const high = (one + two) * (one + two)
      const sinh = over.right[which] ?? NaN
      const sinhLeft = over.left[which] ?? NaN
      over.right[which] = sinh * sinh + high
      under.right[which] = sinh * sinh + low
      over.left[which] = sinhLeft * sinhLeft + high
      under.left[which] = sinhLeft * sinhLeft + low
    }
    if (near > 0) leaveOut(over.right, under.right, charges, index, this.#x, this.#y, near, lid)
    if (nearLeft > 0) leaveOut(over.left, under.left, charges, index, -this.#x, this.#y, nearLeft, lid)
  }

  /** Fields in the same way as potentials. */
  fillFields(
    seen: Float64Array,
    seenLeft: Float64Array,
    charges: PanelCharges,
    index: number,
    near: number,
    nearLeft: number,
  ): void {
    const sides = this.#sides
    if (this.#lid === null) {
      this.#fillOpenFields(seen, charges, index, 1, near)
      if (sides !== 'right') this.#fillOpenFields(seenLeft, charges, index, -1, nearLeft)
    } else {
      this.#fillSinh(charges, index)
      this.#fillClosedFields(seen, this.#over.right, charges, index, 1)
      if (near > 0) this.#subtractNear(seen, charges, index, 1, near, this.#lid)
      if (sides !== 'right') this.#fillClosedFields(seenLeft, this.#over.left, charges, index, -1)
      if (nearLeft > 0) this.#subtractNear(seenLeft, charges, index, -1, nearLeft, this.#lid)
    }
    if (sides === 'sum' || sides === 'difference') {
      const sign = sides === 'sum' ? 1 : -1
      for (let which = 0; which < charges.points; which += 1) {
        seen[which] = (seen[which] ?? NaN) + sign * (seenLeft[which] ?? NaN)
      }
    }
  }

  #fillOpenFields(
    seen: Float64Array,
    { points, x, y }: PanelCharges,
    index: number,
    side: 1 | -1,
    near: number,
  ): void {
    const placeX = side * this.#x
    const placeY = this.#y
    const normalX = side * this.#normalX
    const normalY = this.#normalY
    for (let which = 0; which < points; which += 1) {
      const at = index * points + which
      const across = placeX - (x[at] ?? NaN)
      const rise = placeY - (y[at] ?? NaN)
      const sum = placeY + (y[at] ?? NaN)
      const along = normalX * across
      let field = 0
      if ((near & ITSELF) === 0) field = (along + normalY * rise) / (across * across + rise * rise)
      if ((near & IN_PLANE) === 0) field -= (along + normalY * sum) / (across * across + sum * sum)
      seen[which] = field
    }
  }

  #fillClosedFields(
    seen: Float64Array,
    sinhs: Float64Array,
    charges: PanelCharges,
    index: number,
    side: 1 | -1,
  ): void {
    const { points } = charges
    const ownSine = this.#sine
    const ownCosine = this.#cosine
    const scale = this.#scale
    const normalX = side * this.#normalX
    const normalY = this.#normalY
    for (let which = 0; which < points; which += 1) {
      const at = index * points + which
      const cosine = charges.cosine[at] ?? NaN
      const sine = charges.sine[at] ?? NaN
      const sinh = sinhs[which] ?? NaN
      const squared = sinh * sinh
      const one = ownSine * cosine
      const two = ownCosine * sine
      const product = ownCosine * cosine
      const other = ownSine * sine
      // sinh a and sin (s ∓ s′) from their halves, all over two.
      const along = normalX * sinh * Math.sqrt(1 + squared)
      const under = 2 * (squared + (one - two) * (one - two))
      const above = 2 * (squared + (one + two) * (one + two))
      const image = (along + normalY * (one + two) * (product - other)) / above
      const direct = under > 0 ? (along + normalY * (one - two) * (product + other)) / under : 0
      seen[which] = scale * (direct - image)
    }
  }

  #subtractNear(
    seen: Float64Array,
    { points, x, y }: PanelCharges,
    index: number,
    side: 1 | -1,
    near: number,
    lid: Metres,
  ): void {
    const placeX = side * this.#x
    const placeY = this.#y
    const normalX = side * this.#normalX
    const normalY = this.#normalY
    for (let which = 0; which < points; which += 1) {
      const at = index * points + which
      const across = placeX - (x[at] ?? NaN)
      const rise = placeY - (y[at] ?? NaN)
      const sum = placeY + (y[at] ?? NaN)
      const down = sum - 2 * lid
      const along = normalX * across
      const direct = across * across + rise * rise
      let field = seen[which] ?? NaN
      if ((near & ITSELF) > 0 && direct > 0) field -= (along + normalY * rise) / direct
      if ((near & IN_PLANE) > 0) field += (along + normalY * sum) / (across * across + sum * sum)
      if ((near & IN_LID) > 0) field += (along + normalY * down) / (across * across + down * down)
      seen[which] = field
    }
  }

  /** sinh of half of π/lid times the distances across, from the place and from the mirrored one. */
  #fillSinh({ points, x, grown, decayed }: PanelCharges, index: number): void {
    const { right, left } = this.#over
    const ownGrown = this.#grown
    const ownDecayed = this.#decayed
    for (let which = 0; which < points; which += 1) {
      const at = index * points + which
      if (this.#wide) {
        const fromX = x[at] ?? NaN
        right[which] = sinhOfHalf(this.#scale * (this.#x - fromX))
        left[which] = sinhOfHalf(this.#scale * (0 - this.#x - fromX))
      } else {
        const far = grown[at] ?? NaN
        const close = decayed[at] ?? NaN
        right[which] = 0.5 * (ownGrown * close - ownDecayed * far)
        left[which] = 0.5 * (ownDecayed * close - ownGrown * far)
      }
    }
  }
}

/** Nothing is left of the influence where it is cut off. */
function sinhOfHalf(angle: number): number {
  return Math.sinh(Math.max(-WIDEST, Math.min(WIDEST, angle)) / 2)
}
