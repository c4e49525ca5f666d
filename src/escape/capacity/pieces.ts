import { hypotenuse } from '../../numerics/hypotenuse.ts'
import type { Metres, Point } from '../../units/quantity.ts'
import type { LayerMap } from './layerMap.ts'
import { tracesThrough } from './layerMap.ts'

/**
 * The plane of one layer cut up: gates are straight lines between two obstacles, pieces are what crossings leave
 * of them, cells are what lies between the pieces.
 *
 * A gate joins two obstacles that follow each other along a row or a column of sites, over the empty sites between
 * them, or two that face each other across a tile, the rectangle between four neighbouring sites. Gates cross only at
 * empty sites and in the middle of tiles. Beyond the last obstacle of a row or column there is no gate.
 *
 * Corners are sites (row · columns + column) and, after them, middles of tiles.
 */
export interface Pieces {
  readonly corners: readonly Corner[]
  readonly gates: readonly StraightGate[]
  readonly pieces: readonly Piece[]
  readonly cellCount: number
  /** Pairs of cells with nothing between them. */
  readonly open: readonly (readonly [number, number])[]
  /** Cells that meet at each site. */
  readonly cellsAt: (row: number, column: number) => readonly number[]
}

export interface Corner extends Point {
  /** 0 where nothing stands. */
  readonly reach: Metres
}

export interface StraightGate {
  readonly from: number
  readonly to: number
  readonly clear: Metres
  readonly traces: number
}

export interface Piece {
  readonly from: number
  readonly to: number
  readonly gate: number
  readonly cells: readonly [number, number]
  /** Traces that it may carry, in the cost of the cut; a fraction where other gates cross its gate. */
  readonly share: number
}

/** Cell that surrounds the grid. */
export const OUTSIDE = 0

/** Top, right, lower and left quarter of a tile, as its diagonals part it; row 0 counts as the top. */
type Quarters = readonly [number, number, number, number]

export function piecesOf(map: LayerMap): Pieces {
  return new Cutter(map).cut()
}

class Cutter {
  private readonly map: LayerMap
  private readonly rows: number
  private readonly columns: number
  private readonly corners: Corner[] = []
  private readonly gates: StraightGate[] = []
  private readonly pieces: Piece[] = []
  private readonly open: (readonly [number, number])[] = []
  private readonly tiles: Quarters[] = []
  private cellCount = 1

  constructor(map: LayerMap) {
    this.map = map
    this.rows = map.ys.length
    this.columns = map.xs.length
    for (const [row, y] of map.ys.entries()) {
      for (const [column, x] of map.xs.entries()) {
        this.corners.push({ x, y, reach: map.reach[row]?.[column] ?? 0 })
      }
    }
  }

  cut(): Pieces {
    for (let row = 0; row + 1 < this.rows; row += 1) {
      for (let column = 0; column + 1 < this.columns; column += 1) this.cutTile(row, column)
    }
    const alongRows = this.lines('row')
    const alongColumns = this.lines('column')
    for (const line of alongRows) this.cutLine(line, alongColumns)
    for (const line of alongColumns) this.cutLine(line, alongRows)
    const { corners, gates, pieces, cellCount, open } = this
    return { corners, gates, pieces, cellCount, open, cellsAt: (row, column) => this.cellsAt(row, column) }
  }

  /** Both diagonals of a tile, where both their ends stand and where they can matter. */
  private cutTile(row: number, column: number): void {
    const one = row * this.columns + column
    const [two, three, four] = [one + 1, one + this.columns + 1, one + this.columns]
    const diagonals = [this.diagonal(one, two, three, four), this.diagonal(two, three, four, one)]
    if (diagonals.every((gate) => gate === null)) {
      this.tiles.push([this.cellCount, this.cellCount, this.cellCount, this.cellCount])
      this.cellCount += 1
      return
    }
    const quarters: Quarters = [this.cellCount, this.cellCount + 1, this.cellCount + 2, this.cellCount + 3]
    this.cellCount += 4
    this.tiles.push(quarters)
    const middle = this.corners.length
    this.corners.push(halfway(this.corners[one], this.corners[three]))
    const numbers = diagonals.map((gate) => (gate === null ? -1 : this.gates.push(gate) - 1))
    for (const [turn, corner] of [one, two, three, four].entries()) {
      // Going round, the corner between the left and the top quarter comes first.
      const cells: readonly [number, number] = [quarters[(turn + 3) % 4] ?? 0, quarters[turn] ?? 0]
      const traces = diagonals[turn % 2]?.traces
      const gate = numbers[turn % 2] ?? -1
      if (traces === undefined) this.open.push(cells)
      else this.pieces.push({ from: corner, to: middle, cells, gate, share: traces / 2 })
    }
  }

  /** The gate across a tile from its first to its third corner; null where an end is empty or where it cannot limit. */
  private diagonal(first: number, second: number, third: number, fourth: number): StraightGate | null {
    const across = this.gateBetween(first, third)
    if (across === null) return null
    // Where the two sides of the tile beside it carry no more than the diagonal, a cut along them costs no more.
    const before = this.tracesBetween(first, second) + this.tracesBetween(second, third)
    const behind = this.tracesBetween(first, fourth) + this.tracesBetween(fourth, third)
    return before <= across.traces && behind <= across.traces ? null : across
  }

  /** Whole traces between two neighbouring obstacles; Infinity where one of them is missing. */
  private tracesBetween(from: number, to: number): number {
    const a = this.corners[from]
    const b = this.corners[to]
    if (!a || !b || a.reach === 0 || b.reach === 0) return Infinity
    return tracesThrough(this.map, distance(a, b) - a.reach - b.reach)
  }

  private gateBetween(from: number, to: number): StraightGate | null {
    const a = this.corners[from]
    const b = this.corners[to]
    if (!a || !b || a.reach === 0 || b.reach === 0) return null
    const clear = distance(a, b) - a.reach - b.reach
    return { from, to, clear, traces: tracesThrough(this.map, clear) }
  }

  private lines(along: 'row' | 'column'): Line[] {
    const [count, length] = along === 'row' ? [this.rows, this.columns] : [this.columns, this.rows]
    return Array.from({ length: count }, (_, index) => {
      const sites = Array.from({ length }, (_site, step) =>
        along === 'row' ? index * this.columns + step : step * this.columns + index,
      )
      const standing = sites.flatMap((site, step) => ((this.corners[site]?.reach ?? 0) > 0 ? [step] : []))
      return { along, index, sites, standing, first: standing[0] ?? length, last: standing.at(-1) ?? -1 }
    })
  }

  private cutLine(line: Line, crossing: readonly Line[]): void {
    for (let step = 0; step + 1 < line.sites.length; step += 1) {
      if (step < line.first || step >= line.last) this.open.push(this.sides(line, step))
    }
    for (const [place, start] of line.standing.entries()) {
      const end = line.standing[place + 1]
      if (end !== undefined) this.cutGate(line, start, end, crossing)
    }
  }

  /**
   * A gate that no other crosses carries whole traces, all reckoned on its first piece: what lies along either side
   * of it is one. Where others cross it, each piece carries its length's worth, whole or not.
   */
  private cutGate(line: Line, start: number, end: number, crossing: readonly Line[]): void {
    const gate = this.gateBetween(line.sites[start] ?? 0, line.sites[end] ?? 0)
    if (gate === null) return
    this.gates.push(gate)
    const crossed = crossing
      .slice(start + 1, end)
      .some((other) => other.first < line.index && line.index < other.last)
    for (let step = start; step < end; step += 1) {
      const from = line.sites[step] ?? 0
      const to = line.sites[step + 1] ?? 0
      const whole = step === start ? gate.traces : 0
      this.pieces.push({
        from,
        to,
        gate: this.gates.length - 1,
        cells: this.sides(line, step),
        share: crossed ? this.worth(from, to) : whole,
      })
    }
  }

  private worth(from: number, to: number): number {
    const a = this.corners[from]
    const b = this.corners[to]
    if (!a || !b) return 0
    const { width, gap, tolerance } = this.map
    const end = ({ reach }: Corner): Metres => (reach > 0 ? (gap + tolerance) / 2 - reach : 0)
    return Math.max(0, (distance(a, b) + (end(a) + end(b))) / (width + gap))
  }

  /** Cells on the two sides of the step between two neighbouring sites of a line. */
  private sides(line: Line, step: number): readonly [number, number] {
    const { along, index } = line
    return along === 'row'
      ? [this.quarter(index - 1, step, 2), this.quarter(index, step, 0)]
      : [this.quarter(step, index - 1, 1), this.quarter(step, index, 3)]
  }

  private quarter(row: number, column: number, side: number): number {
    const inside = row >= 0 && column >= 0 && row + 1 < this.rows && column + 1 < this.columns
    return inside ? (this.tiles[row * (this.columns - 1) + column]?.[side] ?? OUTSIDE) : OUTSIDE
  }

  private cellsAt(row: number, column: number): readonly number[] {
    const cells: number[] = []
    for (const { down, right, one, other } of TILES_ABOUT) {
      for (const side of [one, other]) {
        const cell = this.quarter(row + down, column + right, side)
        if (!cells.includes(cell)) cells.push(cell)
      }
    }
    return cells
  }
}

/** The four tiles about a site, by where they begin from it, and the two quarters of each that meet it. */
const TILES_ABOUT = [
  { down: -1, right: -1, one: 1, other: 2 },
  { down: -1, right: 0, one: 2, other: 3 },
  { down: 0, right: 0, one: 3, other: 0 },
  { down: 0, right: -1, one: 0, other: 1 },
] as const

function halfway(a: Corner | undefined, b: Corner | undefined): Corner {
  return { x: ((a?.x ?? 0) + (b?.x ?? 0)) / 2, y: ((a?.y ?? 0) + (b?.y ?? 0)) / 2, reach: 0 }
}

/** Most gates lie along a row or a column, where no root is needed. */
function distance(a: Point, b: Point): Metres {
  if (a.x === b.x) return Math.abs(a.y - b.y)
  return a.y === b.y ? Math.abs(a.x - b.x) : hypotenuse(a.x - b.x, a.y - b.y)
}

/** A row or a column of sites. */
interface Line {
  readonly along: 'row' | 'column'
  readonly index: number
  readonly sites: readonly number[]
  /** Steps along the line at which something stands. */
  readonly standing: readonly number[]
  readonly first: number
  readonly last: number
}
