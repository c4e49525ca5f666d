import { MinimumHeap } from '../../numerics/minimumHeap.ts'
import { distancesToOutside } from './distancesToOutside.ts'
import type { Lattice } from './lattice.ts'
import { LatticePaths, NO_WAY } from './latticePaths.ts'
import type { LatticePath, PathStep } from './latticePaths.ts'
import { latticeSteps, OUTSIDE } from './latticeSteps.ts'

// Held here because a search looks at them at every step.
const NOWHERE = OUTSIDE
const UNUSED = NO_WAY
const NONE = -1
const TOO_LONG = -2

/**
 * Paths of least total length from nodes of a lattice to the outside, no two through one node: an integer maximum
 * flow with a capacity of one for each node, found by successive shortest augmenting paths.
 *
 * Starts are added one by one. A start that is once connected stays connected, and a start that cannot be connected
 * never can be later: sets of starts that can be connected together are the independent sets of a matroid (a
 * gammoid; H. Perfect, Applications of Menger's graph theorem, J. Math. Anal. Appl. 22, 1968), so adding them in
 * order of importance serves the more important ones first and still connects as many as any choice could.
 *
 * Each node has two states: entered (2 · node) and left (2 · node + 1). Reduced lengths stay non-negative by
 * potentials that begin as the distance to the outside (J. Edmonds, R. Karp, Theoretical improvements in
 * algorithmic efficiency for network flow problems, J. ACM 19, 1972).
 */
export class DisjointPaths {
  readonly #size: number
  readonly #lengths: Float64Array
  readonly #neighbours: Int32Array
  readonly #paths: LatticePaths
  /** The state of having reached the outside, and the way by which the nearest exit leads there. */
  readonly #outside: number
  #exitWay = UNUSED
  /** Distance to the outside by states, with the present paths in place; Infinity where there is none. */
  readonly #potential: Float64Array
  readonly #distance: Float64Array
  readonly #parent: Int32Array
  /** Way by which a state was come to, where that was a step between nodes; else 0. */
  readonly #arrival: Uint8Array
  /** Twice the number of the search that found a way to the state, and one more where none is shorter. */
  readonly #mark: Int32Array
  readonly #heap = new MinimumHeap()
  /** States as near as the present one, taken last in, first out: the search runs straight ahead among equals. */
  readonly #level: Int32Array
  #levelSize = 0
  readonly #visited: Int32Array
  #visitedSize = 0
  #search = 0
  #undo: (() => void)[] | null = null

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
    const steps = latticeSteps(lattice, mayExit)
    const through = new Uint8Array(size)
    for (let node = 0; node < size; node += 1) through[node] = blocked(node) ? 0 : 1
    for (const start of starts) through[start] = 0
    this.#size = size
    this.#lengths = steps.lengths
    this.#neighbours = steps.neighbours
    this.#potential = distancesToOutside(steps, through)
    this.#paths = new LatticePaths(steps, through)
    this.#outside = 2 * size
    this.#distance = new Float64Array(2 * size + 1)
    this.#parent = new Int32Array(2 * size + 1)
    this.#arrival = new Uint8Array(2 * size + 1)
    this.#mark = new Int32Array(2 * size + 1)
    this.#level = new Int32Array(2 * size + 1)
    this.#visited = new Int32Array(2 * size + 1)
  }

  /** Length of the way out in nanometres with the present paths in place, or less; Infinity where there is none. */
  wayOut(node: number): number {
    return this.#potential[2 * node + 1] ?? Infinity
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
    const last = this.#shortest(start, longest)
    if (last === TOO_LONG) return false
    if (last === NONE) {
      if (this.#undo === null) this.#giveUp()
      return false
    }
    this.#augment(start, last)
    return true
  }

  /** Connects all of the starts, or none of them. */
  connectAll(starts: readonly number[]): boolean {
    if (starts.length < 2) return starts.every((start) => this.connect(start))
    const undo: (() => void)[] = []
    this.#undo = undo
    const connected = starts.every((start) => this.connect(start))
    this.#undo = null
    if (!connected) for (const back of undo.toReversed()) back()
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
      const way = back[node] ?? UNUSED
      if (way === UNUSED || through[node] !== 1 || this.#isDead(2 * node + 1)) continue
      const before = this.#neighbours[4 * node + way] ?? NOWHERE
      if (this.#isDead(2 * node) || this.#isDead(2 * before + 1)) found.push(node)
    }
    return found
  }

  /** True where no path can lead from the start any more, and for starts from which only a cut leads out. */
  isBehindCut(start: number): boolean {
    return this.#isDead(2 * start + 1)
  }

  #isDead(state: number): boolean {
    return this.#potential[state] === Infinity
  }

  /** Least way to the outside in the residual network: its last state inside; NONE or TOO_LONG where there is none. */
  #shortest(start: number, longest: number): number {
    const origin = 2 * start + 1
    this.#visitedSize = 0
    this.#search += 1
    const base = this.#potential[origin] ?? Infinity
    if (base === Infinity) return NONE
    if (base > longest) return TOO_LONG
    this.#heap.clear()
    this.#levelSize = 0
    this.#note(origin, 0, NONE, 0, 0)
    const mark = this.#mark
    const settled = 2 * this.#search + 1
    for (;;) {
      const state = this.#levelSize > 0 ? this.#fromLevel() : this.#nextLevel(longest - base)
      if (state < 0) return state
      if (mark[state] === settled) continue
      mark[state] = settled
      const reached = this.#distance[state] ?? 0
      if (state === this.#outside) {
        this.#raise(reached)
        return this.#parent[state] ?? NONE
      }
      if ((state & 1) === 1) this.#expandLeft(state >> 1, reached)
      else this.#expandEntered(state >> 1, reached)
    }
  }

  #fromLevel(): number {
    this.#levelSize -= 1
    return this.#level[this.#levelSize] ?? NONE
  }

  /** The nearest state further away; NONE where there is none, TOO_LONG where it is beyond the limit. */
  #nextLevel(limit: number): number {
    if (this.#heap.size === 0) return NONE
    const distance = this.#heap.smallestKey
    if (distance <= limit) return this.#heap.pop()
    this.#raise(distance)
    return TOO_LONG
  }

  #expandEntered(node: number, reached: number): void {
    const back = this.#paths.back[node] ?? UNUSED
    const state = 2 * node
    const own = reached - (this.#potential[state] ?? 0)
    if (back === UNUSED) {
      this.#reach(state, state + 1, own, reached, this.#arrival[state] ?? 0)
      return
    }
    // Somebody's path comes here: that path may end its old way one node earlier.
    const before = this.#neighbours[4 * node + back] ?? NOWHERE
    const length = this.#lengths[4 * before + ((back + 2) & 3)] ?? 0
    this.#reach(state, 2 * before + 1, own - length, reached, 0)
  }

  #expandLeft(node: number, reached: number): void {
    const state = 2 * node + 1
    const taken = this.#paths.onward[node] ?? UNUSED
    const own = reached - (this.#potential[state] ?? 0)
    if (taken !== UNUSED && this.#paths.started[node] !== 1) this.#reach(state, 2 * node, own, reached, 0)
    // The way by which the search came is tried last and taken first.
    const straight = this.#arrival[state] ?? 0
    for (let turn = 1; turn <= 4; turn += 1) {
      const way = (straight + turn) & 3
      const length = this.#lengths[4 * node + way] ?? Infinity
      if (length !== Infinity && way !== taken) this.#step(node, way, own + length, reached)
    }
  }

  /** One step on, unless into a start or against a path. */
  #step(node: number, way: number, length: number, reached: number): void {
    const next = this.#neighbours[4 * node + way] ?? NOWHERE
    if (next === NOWHERE) {
      if (this.#note(this.#outside, length, 2 * node + 1, reached, way)) this.#exitWay = way
    } else if (this.#paths.through[next] === 1 && this.#paths.onward[next] !== ((way + 2) & 3)) {
      this.#reach(2 * node + 1, 2 * next, length, reached, way)
    }
  }

  /** @param length So far, without what is left from there. */
  #reach(from: number, to: number, length: number, reached: number, way: number): void {
    const potential = this.#potential[to] ?? Infinity
    if (potential !== Infinity) this.#note(to, length + potential, from, reached, way)
  }

  /** True where this is the shortest way known to the state. */
  #note(state: number, distance: number, parent: number, reached: number, way: number): boolean {
    const found = 2 * this.#search
    const mark = this.#mark[state] ?? 0
    if (mark > found || (mark === found && distance >= (this.#distance[state] ?? Infinity))) return false
    if (mark < found) {
      this.#mark[state] = found
      this.#visited[this.#visitedSize] = state
      this.#visitedSize += 1
    }
    this.#distance[state] = distance
    this.#parent[state] = parent
    this.#arrival[state] = way
    if (distance <= reached) {
      this.#level[this.#levelSize] = state
      this.#levelSize += 1
    } else this.#heap.push(distance, state)
    return true
  }

  /** States nearer than the outside are now that much further from it. */
  #raise(total: number): void {
    const settled = 2 * this.#search + 1
    const raised: [number, number][] | null = this.#undo === null ? null : []
    for (let index = 0; index < this.#visitedSize; index += 1) {
      const state = this.#visited[index] ?? 0
      const distance = this.#distance[state] ?? 0
      if (this.#mark[state] !== settled || distance >= total || state === this.#outside) continue
      const before = this.#potential[state] ?? 0
      this.#potential[state] = before + total - distance
      raised?.push([state, before])
    }
    this.#undo?.push(() => {
      for (const [state, before] of raised ?? []) this.#potential[state] = before
    })
  }

  /** Nothing that the last search reached can ever reach the outside, whatever is connected later. */
  #giveUp(): void {
    for (let index = 0; index < this.#visitedSize; index += 1)
      this.#potential[this.#visited[index] ?? 0] = Infinity
  }

  #augment(start: number, last: number): void {
    const added: PathStep[] = [[last >> 1, this.#exitWay]]
    const removed: PathStep[] = []
    let state = last
    for (;;) {
      const parent = this.#parent[state] ?? NONE
      if (parent === NONE) break
      const node = state >> 1
      const from = parent >> 1
      if (node !== from) {
        if ((parent & 1) === 1) added.push([from, this.#paths.wayTo(from, node)])
        else removed.push([node, this.#paths.wayTo(node, from)])
      }
      state = parent
    }
    const back = this.#paths.change(start, removed, added)
    this.#undo?.push(back)
  }
}
