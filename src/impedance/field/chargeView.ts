import type { Metres } from '../../units/quantity.ts'
import type { PanelCharges } from './panelCharges.ts'

/** Products of exponentials hold this many times the plate distance over π without overflow. */
const WIDEST = 300
/** What is near of a panel: itself, its image in the plane, that in the lid. These are integrated in closed form. */
export const ITSELF = 1
export const IN_PLANE = 2
export const IN_LID = 4

/**
 * Line charges of 2π ε0 per metre above a plane at y = 0 and, where there is one, below another at y = `lid`, with all
 * their images, as seen from one place after the other: `side` −1 from its mirrored place at −x, with the normal
 * mirrored, too. `near` says which of charge and nearest images are left out.
 *
 *     potential ½ ln (M / N),  N = 2 [sinh² (a/2) + sin² ((s − s′)/2)],  M = 2 [sinh² (a/2) + sin² ((s + s′)/2)],
 *
 * a, s = π/lid · (Δx, y). This is the sum of `lineChargePotential` written so that close places lose no digits: N is
 * (π/lid)² r² / 2 there. With one plane it is that sum itself. Functions of differences follow by the addition theorems
 * from those of either place, taken once for all.
 *
 * Not re-entrant: it keeps the place.
 */
export class ChargeView {
  readonly #lid: Metres | null
  readonly #scale: number
  readonly #wide: boolean
  #x = 0
  #y = 0
  #normalX = 0
  #normalY = 0
  #grown = 1
  #decayed = 1
  #cosine = 1
  #sine = 0

  /** `farthest`: places and charges are no farther than this from x = 0. */
  constructor(lid: Metres | null, farthest: Metres) {
    this.#lid = lid
    this.#scale = lid === null ? 0 : Math.PI / lid
    this.#wide = this.#scale * farthest > WIDEST
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
   * M / N of each line charge of a panel, counted from 0, or what is left of it without those that are near: exp of twice
   * a potential. Many at once, as a number that a function gives back is made anew each time.
   */
  fillRatios(seen: Float64Array, charges: PanelCharges, index: number, side: 1 | -1, near: number): void {
    const { points } = charges
    for (let which = 0; which < points; which += 1) {
      seen[which] = this.#ratio(charges, index * points + which, side, near)
    }
  }

  /** Fields in the same way. */
  fillFields(seen: Float64Array, charges: PanelCharges, index: number, side: 1 | -1, near: number): void {
    const { points } = charges
    for (let which = 0; which < points; which += 1) {
      seen[which] = this.#field(charges, index * points + which, side, near)
    }
  }

  #ratio(charges: PanelCharges, point: number, side: 1 | -1, near: number): number {
    const lid = this.#lid
    const across = side * this.#x - Number(charges.x[point])
    if (lid === null) {
      const rise = this.#y - Number(charges.y[point])
      const sum = this.#y + Number(charges.y[point])
      const squared = across * across
      const above = (near & IN_PLANE) > 0 ? 1 : squared + sum * sum
      return (near & ITSELF) > 0 ? above : above / (squared + rise * rise)
    }
    const sinh = this.#halfSinh(charges, point, across, side)
    const one = this.#sine * Number(charges.cosine[point])
    const two = this.#cosine * Number(charges.sine[point])
    const squared = sinh * sinh
    const under = squared + (one - two) * (one - two)
    const above = squared + (one + two) * (one + two)
    return near === 0 ? above / under : this.#leftOver(across, Number(charges.y[point]), near, above, under)
  }

  /** Of M / 2 over N / 2 what is left without those that are near. */
  #leftOver(across: number, fromY: number, near: number, above: number, under: number): number {
    const rise = this.#y - fromY
    const sum = this.#y + fromY
    const down = 2 * Number(this.#lid) - sum
    const direct = across * across + rise * rise
    let left = 2 * above
    if ((near & IN_PLANE) > 0) left /= across * across + sum * sum
    if ((near & IN_LID) > 0) left /= across * across + down * down
    if ((near & ITSELF) === 0) return left / (2 * under)
    return direct === 0 ? left / (0.5 * this.#scale * this.#scale) : (left * direct) / (2 * under)
  }

  #field(charges: PanelCharges, point: number, side: 1 | -1, near: number): number {
    const lid = this.#lid
    const across = side * this.#x - Number(charges.x[point])
    const fromY = Number(charges.y[point])
    const rise = this.#y - fromY
    const sum = this.#y + fromY
    const normalX = side * this.#normalX
    const normalY = this.#normalY
    const direct = across * across + rise * rise
    const image = across * across + sum * sum
    const ofDirect = direct === 0 ? 0 : (normalX * across + normalY * rise) / direct
    const ofImage = (normalX * across + normalY * sum) / image
    if (lid === null) {
      return ((near & ITSELF) > 0 ? 0 : ofDirect) - ((near & IN_PLANE) > 0 ? 0 : ofImage)
    }
    const sinh = this.#halfSinh(charges, point, across, side)
    const cosine = Number(charges.cosine[point])
    const sine = Number(charges.sine[point])
    const one = this.#sine * cosine
    const two = this.#cosine * sine
    const product = this.#cosine * cosine
    const other = this.#sine * sine
    // sinh a and sin (s ∓ s′) from their halves, all over two.
    const along = normalX * sinh * Math.sqrt(1 + sinh * sinh)
    const under = 2 * (sinh * sinh + (one - two) * (one - two))
    const above = 2 * (sinh * sinh + (one + two) * (one + two))
    let seen = -(along + normalY * (one + two) * (product - other)) / above
    if (under > 0) seen += (along + normalY * (one - two) * (product + other)) / under
    seen *= this.#scale
    if ((near & ITSELF) > 0) seen -= ofDirect
    if ((near & IN_PLANE) > 0) seen += ofImage
    if ((near & IN_LID) > 0) {
      const down = sum - 2 * lid
      seen += (normalX * across + normalY * down) / (across * across + down * down)
    }
    return seen
  }

  /** sinh of half of π/lid times the distance across. */
  #halfSinh(charges: PanelCharges, point: number, across: number, side: 1 | -1): number {
    // Nothing is left of the influence where it is cut off.
    if (this.#wide) return Math.sinh(Math.max(-WIDEST, Math.min(WIDEST, this.#scale * across)) / 2)
    const grown = Number(charges.grown[point])
    const decayed = Number(charges.decayed[point])
    return side === 1
      ? 0.5 * (this.#grown * decayed - this.#decayed * grown)
      : 0.5 * (this.#decayed * decayed - this.#grown * grown)
  }
}
