import { distanceBetweenSegments, distanceToSegment } from '../../routes/segmentDistance.ts'
import type { Metres, Point } from '../../units/quantity.ts'
import { CellGrid } from './cellGrid.ts'
import type { ClosedArea } from './closeWays.ts'
import type { Ends } from './lattice.ts'
import type { StandingDisc } from './layerGround.ts'

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

/** Distances that differ by more than this do so for certain, however they are computed. */
const ROUNDING: Metres = 1e-12

/** Everything on one layer, by place, so that what is near a piece of trace is found at once. */
export class LayerCopper {
  readonly #tolerance: Metres
  readonly #discs: CellGrid<StandingDisc>
  readonly #pieces: CellGrid<Piece>
  readonly #areas: readonly ClosedArea[]
  #largestReach = 0
  #largestNeed = 0

  /** @param cell Side of the squares by which things are found: about the pitch. */
  constructor(cell: Metres, ends: Ends, tolerance: Metres, areas: readonly ClosedArea[]) {
    this.#tolerance = tolerance
    this.#discs = new CellGrid(cell, ends)
    this.#pieces = new CellGrid(cell, ends)
    this.#areas = areas
  }

  addDisc(disc: StandingDisc): void {
    this.#largestReach = Math.max(this.#largestReach, disc.reach)
    this.#discs.add(disc, this.#discs.squares(disc.at, disc.at, 0))
  }

  addTrace(path: readonly Point[], owner: TraceNeeds): void {
    this.#largestNeed = Math.max(this.#largestNeed, owner.width / 2 + owner.largestGap)
    let from: Point | undefined
    for (const to of path) {
      if (from !== undefined) this.#pieces.add({ from, to, owner }, this.#pieces.squares(from, to, 0))
      from = to
    }
  }

  removeTrace(path: readonly Point[], ball: number): void {
    const isOwn = ({ owner }: Piece): boolean => owner.ball === ball
    let from: Point | undefined
    for (const to of path) {
      if (from !== undefined) this.#pieces.remove(isOwn, this.#pieces.squares(from, to, 0))
      from = to
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
    let from: Point | undefined
    for (const to of path) {
      if (from !== undefined && !this.isClear(from, to, needs)) return false
      from = to
    }
    return true
  }

  #clearOfDiscs(from: Point, to: Point, { ball, width }: TraceNeeds): boolean {
    const { first, across, up, stride } = this.#discs.squares(from, to, this.#largestReach + width / 2)
    for (let row = first; row <= first + up * stride; row += stride) {
      for (let square = row; square <= row + across; square += 1) {
        for (const { ball: other, at, reach } of this.#discs.at(square)) {
          if (other === ball) continue
          const needed = reach + width / 2 - this.#tolerance
          if (boxDistance(from, to, at, at) > needed + ROUNDING) continue
          if (distanceToSegment(at, from, to) < needed) return false
        }
      }
    }
    return true
  }

  #clearOfTraces(from: Point, to: Point, needs: TraceNeeds): boolean {
    const margin = needs.width / 2 + needs.largestGap + this.#largestNeed
    const { first, across, up, stride } = this.#pieces.squares(from, to, margin)
    for (let row = first; row <= first + up * stride; row += stride) {
      for (let square = row; square <= row + across; square += 1) {
        for (const piece of this.#pieces.at(square)) {
          if (piece.owner.ball === needs.ball) continue
          if (boxDistance(from, to, piece.from, piece.to) > margin + ROUNDING) continue
          if (this.#isTooNear(from, to, needs, piece)) return false
        }
      }
    }
    return true
  }

  #isTooNear(from: Point, to: Point, needs: TraceNeeds, piece: Piece): boolean {
    const { owner } = piece
    const gap = Math.max(needs.gapTo(owner.ball), owner.gapTo(needs.ball))
    const needed = (owner.width + needs.width) / 2 + gap - this.#tolerance
    return (
      boxDistance(from, to, piece.from, piece.to) <= needed + ROUNDING &&
      distanceBetweenSegments(from, to, piece.from, piece.to) < needed
    )
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
}

/** The least that two pieces are apart: along one axis, between the boxes about them. */
function boxDistance(from: Point, to: Point, otherFrom: Point, otherTo: Point): Metres {
  return Math.max(
    gapBetween(from.x, to.x, otherFrom.x, otherTo.x),
    gapBetween(from.y, to.y, otherFrom.y, otherTo.y),
  )
}

function gapBetween(from: Metres, to: Metres, otherFrom: Metres, otherTo: Metres): Metres {
  return Math.max(
    Math.min(from, to) - Math.max(otherFrom, otherTo),
    Math.min(otherFrom, otherTo) - Math.max(from, to),
  )
}
