import { distanceBetweenSegments, distanceToSegment } from '../../routes/segmentDistance.ts'
import type { Metres, Point } from '../../units/quantity.ts'
import type { ClosedArea } from './closeWays.ts'

/** What a trace asks of its surroundings. */
export interface TraceNeeds {
  readonly ball: number
  readonly width: Metres
  /** To the trace of another ball, edge to edge; never more than `largestGap`. */
  gapTo(ball: number): Metres
  readonly largestGap: Metres
}

interface Piece {
  readonly from: Point
  readonly to: Point
  readonly owner: TraceNeeds
}

interface Disc {
  readonly ball: number
  readonly at: Point
  readonly reach: Metres
}

const CELLS = 2 ** 26

/** Everything on one layer, by place, so that what is near a piece of trace is found at once. */
export class LayerCopper {
  readonly #cell: Metres
  readonly #tolerance: Metres
  readonly #discs = new Map<number, Disc[]>()
  readonly #pieces = new Map<number, Piece[]>()
  readonly #areas: readonly ClosedArea[]
  #largestReach = 0
  #largestNeed = 0

  /** @param cell Side of the squares by which things are found: about the pitch. */
  constructor(cell: Metres, tolerance: Metres, areas: readonly ClosedArea[]) {
    this.#cell = cell
    this.#tolerance = tolerance
    this.#areas = areas
  }

  addDisc(disc: Disc): void {
    this.#largestReach = Math.max(this.#largestReach, disc.reach)
    const key = this.#key(this.#index(disc.at.x), this.#index(disc.at.y))
    const known = this.#discs.get(key)
    if (known === undefined) this.#discs.set(key, [disc])
    else known.push(disc)
  }

  addTrace(path: readonly Point[], owner: TraceNeeds): void {
    this.#largestNeed = Math.max(this.#largestNeed, owner.width / 2 + owner.largestGap)
    for (const [index, to] of path.entries()) {
      const from = path[index - 1]
      if (from === undefined) continue
      const piece = { from, to, owner }
      this.#everyCell(from, to, 0, (key) => {
        const known = this.#pieces.get(key)
        if (known === undefined) this.#pieces.set(key, [piece])
        else known.push(piece)
        return true
      })
    }
  }

  removeTrace(path: readonly Point[], ball: number): void {
    for (const [index, to] of path.entries()) {
      const from = path[index - 1]
      if (from === undefined) continue
      this.#everyCell(from, to, 0, (key) => {
        const known = this.#pieces.get(key) ?? []
        if (known.some(({ owner }) => owner.ball === ball)) {
          this.#pieces.set(
            key,
            known.filter(({ owner }) => owner.ball !== ball),
          )
        }
        return true
      })
    }
  }

  /** True where a piece of trace keeps clear of everything that is not its own. */
  isClear(from: Point, to: Point, needs: TraceNeeds): boolean {
    return (
      this.#clearOfAreas(from, to, needs) &&
      this.#clearOfDiscs(from, to, needs) &&
      this.#clearOfTraces(from, to, needs)
    )
  }

  /** True where every piece of a path does. */
  isPathClear(path: readonly Point[], needs: TraceNeeds): boolean {
    return path.every((to, index) => {
      const from = path[index - 1]
      return from === undefined || this.isClear(from, to, needs)
    })
  }

  #clearOfDiscs(from: Point, to: Point, { ball, width }: TraceNeeds): boolean {
    return this.#everyCell(from, to, this.#largestReach + width / 2, (key) => {
      const discs = this.#discs.get(key)
      if (discs === undefined) return true
      return discs.every(
        (disc) =>
          disc.ball === ball ||
          distanceToSegment(disc.at, from, to) >= disc.reach + width / 2 - this.#tolerance,
      )
    })
  }

  #clearOfTraces(from: Point, to: Point, needs: TraceNeeds): boolean {
    const margin = needs.width / 2 + needs.largestGap + this.#largestNeed
    return this.#everyCell(from, to, margin, (key) => {
      const pieces = this.#pieces.get(key)
      if (pieces === undefined) return true
      return pieces.every((piece) => {
        const { owner } = piece
        if (owner.ball === needs.ball) return true
        const gap = Math.max(needs.gapTo(owner.ball), owner.gapTo(needs.ball))
        const needed = (owner.width + needs.width) / 2 + gap - this.#tolerance
        return distanceBetweenSegments(from, to, piece.from, piece.to) >= needed
      })
    })
  }

  #clearOfAreas(from: Point, to: Point, { width }: TraceNeeds): boolean {
    const grown = width / 2 - this.#tolerance
    return this.#areas.every(
      ({ low, high }) =>
        Math.max(from.x, to.x) <= low.x - grown ||
        Math.min(from.x, to.x) >= high.x + grown ||
        Math.max(from.y, to.y) <= low.y - grown ||
        Math.min(from.y, to.y) >= high.y + grown,
    )
  }

  /** Looks at the squares that a box about the piece touches, grown by a margin, until one fails the test. */
  #everyCell(from: Point, to: Point, margin: Metres, test: (key: number) => boolean): boolean {
    const left = this.#index(Math.min(from.x, to.x) - margin)
    const right = this.#index(Math.max(from.x, to.x) + margin)
    const low = this.#index(Math.min(from.y, to.y) - margin)
    const high = this.#index(Math.max(from.y, to.y) + margin)
    for (let row = low; row <= high; row += 1) {
      for (let column = left; column <= right; column += 1) {
        if (!test(this.#key(column, row))) return false
      }
    }
    return true
  }

  #index(length: Metres): number {
    return Math.floor(length / this.#cell)
  }

  /** Rows and columns run from −2²⁵ to 2²⁵, so that the key is a whole number without rounding. */
  #key(column: number, row: number): number {
    return (column + CELLS / 2) * CELLS + row + CELLS / 2
  }
}
