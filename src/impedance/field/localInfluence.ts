import { fillSecondKind, logIntegral, secondKind, type SecondKind } from './legendreIntegrals.ts'
import type { Panel } from './panels.ts'

/**
 * Potentials and fields of a panel's densities P_0 … P_{order−1} alone, without images, in closed form, in units in
 * which charge is counted over 2π ε0.
 *
 * Not re-entrant: it keeps scratch space.
 */
export class LocalInfluence {
  readonly #order: number
  readonly #scratch: SecondKind

  constructor(order: number) {
    this.#order = order
    this.#scratch = secondKind(order + 1)
  }

  /** Adds `sign` times the potential −∫ σ ln r at (x, y) to the entries of a row from `from` on. */
  addPotential(row: Float64Array, from: number, panel: Panel, x: number, y: number, sign: number): void {
    const along = ((x - panel.x) * panel.dx + (y - panel.y) * panel.dy) / panel.half
    const across = ((y - panel.y) * panel.dx - (x - panel.x) * panel.dy) / panel.half
    this.#addAt(row, from, panel, along, across, sign)
  }

  /** The same on the panel itself, at its coordinate `own` from −1 to 1. */
  addOwnPotential(row: Float64Array, from: number, panel: Panel, own: number): void {
    this.#addAt(row, from, panel, own, 0, 1)
  }

  /**
   * Adds the field along (normalX, normalY), whose length counts, at (x, y):
   * E_x − i E_y = ∫ P_k / (z − z′) = 2 Q_k / τ, τ the direction of the panel.
   */
  addField(
    row: Float64Array,
    from: number,
    panel: Panel,
    x: number,
    y: number,
    normalX: number,
    normalY: number,
  ): void {
    const order = this.#order
    const along = ((x - panel.x) * panel.dx + (y - panel.y) * panel.dy) / panel.half
    const across = ((y - panel.y) * panel.dx - (x - panel.x) * panel.dy) / panel.half
    const q = this.#scratch
    fillSecondKind(q, order, along, across)
    const ofRe = 2 * (normalX * panel.dx + normalY * panel.dy)
    const ofIm = 2 * (normalX * panel.dy - normalY * panel.dx)
    for (let k = 0; k < order; k += 1) {
      row[from + k] = (row[from + k] ?? NaN) + ofRe * (q.re[k] ?? NaN) + ofIm * (q.im[k] ?? NaN)
    }
  }

  #addAt(row: Float64Array, from: number, panel: Panel, along: number, across: number, sign: number): void {
    const q = this.#scratch
    const order = this.#order
    const weight = sign * panel.half
    const whole = logIntegral(q, order + 1, along, across) + 2 * panel.logHalf
    row[from] = (row[from] ?? NaN) - weight * whole
    for (let k = 1; k < order; k += 1) {
      const integral = (2 * ((q.re[k + 1] ?? NaN) - (q.re[k - 1] ?? NaN))) / (2 * k + 1)
      row[from + k] = (row[from + k] ?? NaN) - weight * integral
    }
  }
}
