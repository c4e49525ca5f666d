import type { Lattice } from './lattice.ts'
import { LatticePaths, NO_WAY } from './latticePaths.ts'
import type { LatticePath } from './latticePaths.ts'
import { latticeSteps, OUTSIDE } from './latticeSteps.ts'
import { NONE, TOO_LONG, WayOutSearch } from './wayOutSearch.ts'
import type { RaisedPotentials } from './wayOutSearch.ts'

/** What the connections of several starts changed, so that they can be taken back. */
interface Undo {
  readonly paths: (() => void)[]
  readonly raised: RaisedPotentials
}

/**
 * Paths of least total length from nodes of a lattice to the outside, no two through one node: an integer maximum
 * flow with a capacity of one for each node, found by successive shortest augmenting paths (`WayOutSearch`).
 *
 * Starts are added one by one. A start that is once connected stays connected, and a start that cannot be connected
 * never can be later: sets of starts that can be connected together are the independent sets of a matroid (a
 * gammoid; H. Perfect, Applications of Menger's graph theorem, J. Math. Anal. Appl. 22, 1968), so adding them in
 * order of importance serves the more important ones first and still connects as many as any choice could.
 */
export class DisjointPaths {
  readonly #size: number
  readonly #neighbours: Int32Array
  readonly #paths: LatticePaths
  readonly #search: WayOutSearch
  #undo: Undo | null = null

  /**
   * @param starts Nodes that paths may begin at; no path of another start leads through them.
   * @param blocked Nodes that no path may use.
   * @param mayExit Whether the outside may be reached that way from the outermost lines.
   */
  constructor(
    lattice: Lattice,
    starts: Iterable<number>,
    blocked: (node: number) => boolean,
    mayExit: (way: number) => boolean,
  ) {
    const { size } = lattice
    const through = new Uint8Array(size)
    for (let node = 0; node < size; node += 1) through[node] = blocked(node) ? 0 : 1
    for (const start of starts) through[start] = 0
    const steps = latticeSteps(lattice, through, mayExit)
    this.#size = size
    this.#neighbours = steps.neighbours
    this.#paths = new LatticePaths(steps, through)
    this.#search = new WayOutSearch(steps, this.#paths)
  }

  /** Length of the way out in nanometres with the present paths in place, or less; Infinity where there is none. */
  wayOut(node: number): number {
    return this.#search.potential[2 * node + 1] ?? Infinity
  }

  /** True where a path may begin that no other leads through: at a start, or at a node that is still free. */
  mayBegin(node: number): boolean {
    return this.#paths.mayBegin(node)
  }

  /**
   * Connects one more start to the outside; false, and no path changed, where no set of paths does, or only one that
   * is longer than the present by more than `longest` nanometres: then `wayOut` says more than before.
   */
  connect(start: number, longest = Infinity): boolean {
    if (!this.mayBegin(start)) throw new RangeError(`a path leads through node ${start} already`)
    const undo = this.#undo
    const last = this.#search.find(start, longest, undo === null ? null : undo.raised)
    if (last === TOO_LONG) return false
    if (last === NONE) {
      if (undo === null) this.#search.giveUp()
      return false
    }
    const { removed, added } = this.#search.changes(last)
    undo?.paths.push(this.#paths.undoOf(start, removed, added))
    this.#paths.change(start, removed, added)
    return true
  }

  /** Connects all of the starts, or none of them. */
  connectAll(starts: readonly number[]): boolean {
    if (starts.length < 2) return starts.every((start) => this.connect(start))
    const undo: Undo = { paths: [], raised: { states: [], before: [] } }
    this.#undo = undo
    const connected = starts.every((start) => this.connect(start))
    this.#undo = null
    if (!connected) this.#takeBack(undo)
    return connected
  }

  isConnected(start: number): boolean {
    return this.#paths.started[start] === 1
  }

  pathOf(start: number): LatticePath | null {
    return this.#paths.pathOf(start)
  }

  /**
   * Nodes of a minimum cut: every way to the outside of a start that was refused leads through one of them, and each
   * of them carries a path.
   */
  cutNodes(): number[] {
    const { through, back } = this.#paths
    const found: number[] = []
    for (let node = 0; node < this.#size; node += 1) {
      const way = back[node] ?? NO_WAY
      if (way === NO_WAY || through[node] !== 1 || this.#isDead(2 * node + 1)) continue
      const before = this.#neighbours[4 * node + way] ?? OUTSIDE
      if (this.#isDead(2 * node) || this.#isDead(2 * before + 1)) found.push(node)
    }
    return found
  }

  /** True where no path can lead from the start any more, and for starts from which only a cut leads out. */
  isBehindCut(start: number): boolean {
    return this.#isDead(2 * start + 1)
  }

  #isDead(state: number): boolean {
    return this.#search.potential[state] === Infinity
  }

  /** From the last change to the first. */
  #takeBack({ paths, raised }: Undo): void {
    for (const back of paths.toReversed()) back()
    const { potential } = this.#search
    for (let index = raised.states.length - 1; index >= 0; index -= 1)
      potential[raised.states[index] ?? 0] = raised.before[index] ?? Infinity
  }
}
