import { hypotenuse } from '../../numerics/hypotenuse.ts'
import type { Metres } from '../../units/quantity.ts'
import type { LayerMap } from './layerMap.ts'
import { tracesThrough } from './layerMap.ts'
import type { Corner, Piece, Pieces } from './pieces.ts'

/** A stretch of a cut from one obstacle to the next, and the traces that it lets through. */
export interface Chain {
  /** Sites of the two obstacles, row · columns + column. */
  readonly from: number
  readonly to: number
  readonly clear: Metres
  readonly traces: number
}

/** One side of a cut. */
export interface Side {
  /** Pieces between this side and the other. */
  readonly border: readonly Piece[]
  /** Sites of the sources that lie wholly within this side. */
  readonly within: ReadonlySet<number>
}

/**
 * The border of a side, counted anew with whole traces on each stretch between two obstacles. A stretch may turn at
 * empty sites; where nothing stands and nothing starts between it and the straight line from end to end, that line
 * takes its place.
 *
 * Why this limits every layout: a trace that starts within the side has to pass the border, on a stretch that ends
 * at obstacles other than its own, for a source with a border at its site is not within. Points at which two traces pass
 * are a width and a gap apart, measured straight and so along the stretch too; the first and the last lie half
 * a width beyond the reach of the ends. Hence k traces need (k − 1)(width + gap) + width of clear length.
 */
export function chainsOf(map: LayerMap, cut: Pieces, side: Side, inUse: readonly number[]): Chain[] {
  const walker = new Walker(cut.corners, side.border)
  const chains = walker.walks().map((walk) => measured(map, cut.corners, walk, inUse))
  const ringed = new Set(walker.remaining().map(({ gate }) => gate))
  return [...chains, ...[...ringed].flatMap((gate) => onRing(map, cut, gate, side.within))]
}

/**
 * A gate that part of a ring lies on, a border that meets no obstacle. All that pass the ring there pass the gate. An
 * obstacle at its end does not keep away the trace that starts there.
 */
function onRing(map: LayerMap, cut: Pieces, index: number, within: ReadonlySet<number>): Chain[] {
  const gate = cut.gates[index]
  if (!gate) return []
  const more = [gate.from, gate.to].reduce(
    (sum, end) => sum + (within.has(end) ? (cut.corners[end]?.reach ?? 0) + map.width / 2 : 0),
    0,
  )
  return [{ ...gate, traces: tracesThrough(map, gate.clear + more) }]
}

/** Follows the pieces of a border through the corners at which nothing stands. */
class Walker {
  private readonly corners: readonly Corner[]
  private readonly border: readonly Piece[]
  private readonly at = new Map<number, Piece[]>()
  private readonly walked = new Set<Piece>()

  constructor(corners: readonly Corner[], border: readonly Piece[]) {
    this.corners = corners
    this.border = border
    for (const piece of border) {
      for (const end of [piece.from, piece.to]) {
        const met = this.at.get(end)
        if (met) met.push(piece)
        else this.at.set(end, [piece])
      }
    }
  }

  /** Corners passed, from obstacle to obstacle. */
  walks(): number[][] {
    const walks: number[][] = []
    for (const piece of this.border) {
      for (const start of [piece.from, piece.to]) {
        if (this.stands(start) && !this.walked.has(piece)) walks.push(this.walk(piece, start))
      }
    }
    return walks
  }

  /** Pieces that no walk has passed. */
  remaining(): Piece[] {
    return this.border.filter((piece) => !this.walked.has(piece))
  }

  private walk(first: Piece, start: number): number[] {
    const passed = [start]
    let piece: Piece | undefined = first
    while (piece) {
      this.walked.add(piece)
      const corner: number = piece.from === passed.at(-1) ? piece.to : piece.from
      passed.push(corner)
      piece = this.stands(corner) ? undefined : this.onward(piece, corner)
    }
    return passed
  }

  /** Straight on where four pieces meet, which are those of two crossing gates; else the only other one. */
  private onward(piece: Piece, corner: number): Piece | undefined {
    const others = (this.at.get(corner) ?? []).filter((other) => other !== piece)
    return others.length === 1 ? others[0] : others.find(({ gate }) => gate === piece.gate)
  }

  private stands(corner: number): boolean {
    return (this.corners[corner]?.reach ?? 0) > 0
  }
}

function measured(
  map: LayerMap,
  corners: readonly Corner[],
  walk: readonly number[],
  inUse: readonly number[],
): Chain {
  const from = walk[0] ?? 0
  const to = walk.at(-1) ?? 0
  const points = walk.flatMap((corner) => corners[corner] ?? [])
  const start = corners[from]
  const end = corners[to]
  if (!start || !end) throw new RangeError('a walk along a cut needs two ends')
  const passed = new Set(walk)
  const straight =
    from !== to &&
    (isStraight(points) ||
      inUse.every((site) => passed.has(site) || !inPocket(points, corners[site] ?? start)))
  const line = straight ? [start, end] : points
  const clear = lengthOf(line) - start.reach - end.reach
  return { from, to, clear, traces: tracesThrough(map, clear) }
}

function lengthOf(line: readonly Corner[]): Metres {
  return line.reduce((sum, point, index) => {
    const before = line[index - 1]
    return before ? sum + hypotenuse(point.x - before.x, point.y - before.y) : 0
  }, 0)
}

function isStraight(line: readonly Corner[]): boolean {
  return (
    line.length === 2 ||
    Math.abs(lengthOf(line) - lengthOf([line[0], line.at(-1)].flatMap((p) => p ?? []))) < 1e-12
  )
}

/** True for a point between a line and the straight way between its ends, by the even-odd rule, or on that way. */
function inPocket(line: readonly Corner[], point: Corner): boolean {
  let inside = false
  for (const [index, a] of line.entries()) {
    const b = line[(index + 1) % line.length] ?? a
    if (a.y > point.y !== b.y > point.y && point.x < a.x + ((point.y - a.y) * (b.x - a.x)) / (b.y - a.y)) {
      inside = !inside
    }
  }
  return inside || onChord(line, point)
}

function onChord(line: readonly Corner[], point: Corner): boolean {
  const a = line[0]
  const b = line.at(-1)
  if (!a || !b) return false
  const length = hypotenuse(b.x - a.x, b.y - a.y)
  const along = ((point.x - a.x) * (b.x - a.x) + (point.y - a.y) * (b.y - a.y)) / length
  const aside = Math.abs((point.x - a.x) * (b.y - a.y) - (point.y - a.y) * (b.x - a.x)) / length
  return along > 0 && along < length && aside < 1e-9
}
