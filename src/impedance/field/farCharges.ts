import type { Metres, Point } from '../../units/quantity.ts'
import { MOST_MORE, rule } from './influence.ts'
import type { Mesh } from './panels.ts'

/**
 * Which side of a symmetric picture an influence is of: right and left half apart, their sum or difference at once, or
 * the right half alone.
 */
export type Sides = 'apart' | 'sum' | 'difference' | 'right'

/** Products of exponentials hold this many times the plate distance over π without overflow. */
const WIDEST = 300

/** Line charges in place of each panel, for as many points as `more` asks for. */
interface Charges {
  readonly points: number
  readonly places: readonly Place[]
  /** Charge of each Legendre coefficient at each point. */
  readonly shares: Float64Array
}

/** Coordinates, and between two planes their hyperbolic and circular functions, π/lid · (x, y). */
interface Place {
  readonly x: number
  readonly y: number
  readonly grown: number
  readonly decayed: number
  readonly cosine: number
  readonly sine: number
}

/**
 * Influences of panels that are far off with all their images, as those of `lineChargePotential` and `lineChargeField` at
 * Gauss points: the same sums, with every function of one place alone taken once for all. Hyperbolic and circular
 * functions of differences follow by the addition theorems; the left half of a symmetric picture is the right one with
 * growing and decaying exponentials exchanged, and where only the sum or difference of both halves is asked for, their
 * logarithms are one.
 *
 * Not re-entrant: it keeps scratch space.
 */
export class FarCharges {
  readonly #lid: Metres | null
  readonly #scale: number
  readonly #order: number
  readonly #charges: readonly Charges[]
  readonly #wide: boolean
  /** What a charge on the right, and its like on the left, does at the place: ratio of a logarithm, or field. */
  readonly #seen = new Float64Array(2)

  constructor({ panels, order }: Mesh, lid: Metres | null) {
    this.#lid = lid
    this.#scale = lid === null ? 0 : Math.PI / lid
    this.#order = order
    this.#wide = panels.some(({ x, half }) => this.#scale * (Math.abs(x) + half) > WIDEST)
    this.#charges = Array.from({ length: MOST_MORE + 1 }, (_, more) => {
      const { nodes, weights, polynomials } = rule(order, order + more)
      const places = panels.flatMap(({ x, y, half, dx, dy }) =>
        nodes.map((node) => this.place({ x: x + node * half * dx, y: y + node * half * dy })),
      )
      const shares = panels.flatMap(({ half }) =>
        weights.flatMap((weight, point) => (polynomials[point] ?? []).map((value) => weight * half * value)),
      )
      return { points: nodes.length, places, shares: Float64Array.from(shares) }
    })
  }

  /** What the influences at a place need of it. */
  place({ x, y }: Point): Place {
    const [along, up] = [this.#scale * x, this.#scale * y]
    return {
      x,
      y,
      grown: this.#wide ? 0 : Math.exp(along),
      decayed: this.#wide ? 0 : Math.exp(-along),
      cosine: Math.cos(up),
      sine: Math.sin(up),
    }
  }

  /**
   * Adds potentials at a place, or fields along a normal there: of the right half, and of the left one to `left`, both at
   * `from`, or what `sides` says to `row` alone. `panel` counts those of the mesh.
   */
  add(
    rows: { readonly row: Float64Array; readonly left: Float64Array; readonly from: number },
    sides: Sides,
    panel: number,
    more: number,
    at: Place,
    normal: Point | null,
  ): void {
    const charges = this.#charges[more]
    if (charges === undefined) throw new RangeError(`at most ${MOST_MORE} more points are kept, got ${more}`)
    const { row, left, from } = rows
    const order = this.#order
    const end = (panel + 1) * charges.points
    for (let point = panel * charges.points; point < end; point += 1) {
      const source = charges.places[point]
      if (source === undefined) break
      if (normal === null) this.#potentials(at, source)
      else this.#fields(at, source, normal)
      const seen = normal === null ? this.#logarithm(sides) : this.#field(sides)
      for (let k = 0; k < order; k += 1) {
        row[from + k] = Number(row[from + k]) + Number(charges.shares[point * order + k]) * seen
      }
      if (sides !== 'apart') continue
      const other = normal === null ? 0.5 * Math.log(Number(this.#seen[1])) : Number(this.#seen[1])
      for (let k = 0; k < order; k += 1) {
        left[from + k] = Number(left[from + k]) + Number(charges.shares[point * order + k]) * other
      }
    }
  }

  #logarithm(sides: Sides): number {
    const [right, left] = [Number(this.#seen[0]), Number(this.#seen[1])]
    const ratio = sides === 'sum' ? right * left : sides === 'difference' ? right / left : right
    return 0.5 * Math.log(ratio)
  }

  #field(sides: Sides): number {
    const [right, left] = [Number(this.#seen[0]), Number(this.#seen[1])]
    return sides === 'sum' ? right + left : sides === 'difference' ? right - left : right
  }

  #potentials(at: Place, source: Place): void {
    const seen = this.#seen
    if (this.#lid === null) {
      const [rise, sum] = [at.y - source.y, at.y + source.y]
      const [low, high] = [rise * rise, sum * sum]
      const right = (at.x - source.x) * (at.x - source.x)
      const left = (at.x + source.x) * (at.x + source.x)
      seen[0] = (right + high) / (right + low)
      seen[1] = (left + high) / (left + low)
      return
    }
    const [product, other] = [at.cosine * source.cosine, at.sine * source.sine]
    const [ofDifference, ofSum] = [product + other, product - other]
    const right = this.#cosh(at, source, 1)
    const left = this.#cosh(at, source, -1)
    seen[0] = (right - ofSum) / (right - ofDifference)
    seen[1] = (left - ofSum) / (left - ofDifference)
  }

  /** Of the left half at the place's own side: the field of the right half at the mirrored place, mirrored back. */
  #fields(at: Place, source: Place, normal: Point): void {
    const seen = this.#seen
    if (this.#lid === null) {
      const [rise, sum] = [at.y - source.y, at.y + source.y]
      const [right, left] = [at.x - source.x, at.x + source.x]
      const [near, far] = [1 / (right * right + rise * rise), 1 / (right * right + sum * sum)]
      seen[0] = normal.x * right * (near - far) + normal.y * (rise * near - sum * far)
      const [mirroredNear, mirroredFar] = [1 / (left * left + rise * rise), 1 / (left * left + sum * sum)]
      seen[1] =
        normal.x * left * (mirroredNear - mirroredFar) + normal.y * (rise * mirroredNear - sum * mirroredFar)
      return
    }
    const [product, other] = [at.cosine * source.cosine, at.sine * source.sine]
    const [ofDifference, ofSum] = [product + other, product - other]
    const [one, two] = [at.sine * source.cosine, at.cosine * source.sine]
    const [up, down] = [normal.y * (one - two), normal.y * (one + two)]
    const half = this.#scale / 2
    for (let side = 0; side < 2; side += 1) {
      const sign = side === 0 ? 1 : -1
      const cosh = this.#cosh(at, source, sign)
      const along = normal.x * this.#sinh(at, source, sign)
      const [near, far] = [1 / (cosh - ofDifference), 1 / (cosh - ofSum)]
      seen[side] = half * (along * (near - far) + up * near - down * far)
    }
  }

  /** Of π/lid times the distance across, to the charge (1) or to its like on the left (−1). */
  #cosh(at: Place, source: Place, sign: 1 | -1): number {
    if (this.#wide) return Math.cosh(this.#across(at, source, sign))
    return sign === 1
      ? 0.5 * (at.grown * source.decayed + at.decayed * source.grown)
      : 0.5 * (at.grown * source.grown + at.decayed * source.decayed)
  }

  #sinh(at: Place, source: Place, sign: 1 | -1): number {
    if (this.#wide) return Math.sinh(this.#across(at, source, sign))
    return sign === 1
      ? 0.5 * (at.grown * source.decayed - at.decayed * source.grown)
      : 0.5 * (at.grown * source.grown - at.decayed * source.decayed)
  }

  /** Nothing is left of the influence where it is cut off. */
  #across(at: Place, source: Place, sign: 1 | -1): number {
    const across = this.#scale * (at.x - sign * source.x)
    return Math.max(-WIDEST, Math.min(WIDEST, across))
  }
}
