import { MinimumHeap } from '../../numerics/minimumHeap.ts'
import { distancesToOutside } from './distancesToOutside.ts'
import { NO_WAY } from './latticePaths.ts'
import type { LatticePaths } from './latticePaths.ts'
import { OUTSIDE } from './latticeSteps.ts'
import type { LatticeSteps } from './latticeSteps.ts'

/** No state: there is no way out, or only one that is too long. */
export const NONE = -1
export const TOO_LONG = -2

/**
 * The nearest way from a node to the outside while paths lie on the lattice, where each of them may be led elsewhere: a
 * shortest path in the residual network of a flow.
 *
 * Each node has two states: entered (2 · node) and left (2 · node + 1). Reduced lengths stay non-negative by
 * potentials that begin as the distance to the outside (J. Edmonds, R. Karp, Theoretical improvements in
 * algorithmic efficiency for network flow problems, J. ACM 19, 1972).
 */
export class WayOutSearch {
  /** Distance to the outside by states, with the present paths in place, or less; Infinity where there is none. */
  readonly potential: Float64Array
  readonly #ways: Uint8Array
  readonly #lengths: Float64Array
  readonly #neighbours: Int32Array
  readonly #paths: LatticePaths
  /** The state of having reached the outside, and the way by which the nearest exit leads there. */
  readonly #outside: number
  #exitWay = NO_WAY
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

  constructor(steps: LatticeSteps, paths: LatticePaths) {
    const { size } = steps
    this.potential = distancesToOutside(steps, paths.through)
    this.#ways = steps.ways
    this.#lengths = steps.lengths
    this.#neighbours = steps.neighbours
    this.#paths = paths
    this.#outside = 2 * size
    this.#distance = new Float64Array(2 * size + 1)
    this.#parent = new Int32Array(2 * size + 1)
    this.#arrival = new Uint8Array(2 * size + 1)
    this.#mark = new Int32Array(2 * size + 1)
    this.#level = new Int32Array(2 * size + 1)
    this.#visited = new Int32Array(2 * size + 1)
  }

  /**
   * Looks for the least way to the outside, and keeps it: the last state inside, or NONE or TOO_LONG where there is none,
   * or none of at most `longest` nanometres.
   * @param raised Told each potential that is raised for it, with what it was before.
   */
  find(start: number, longest: number, raised: RaisedPotentials | null): number {
    const origin = 2 * start + 1
    this.#visitedSize = 0
    this.#search += 1
    const base = this.potential[origin] ?? Infinity
    if (base === Infinity) return NONE
    if (base > longest) return TOO_LONG
    this.#heap.clear()
    this.#levelSize = 0
    this.#note(origin, 0, NONE, 0, 0)
    const mark = this.#mark
    const settled = 2 * this.#search + 1
    for (;;) {
      const state = this.#levelSize > 0 ? this.#fromLevel() : this.#nextLevel(longest - base, raised)
      if (state < 0) return state
      if (mark[state] === settled) continue
      mark[state] = settled
      const reached = this.#distance[state] ?? 0
      if (state === this.#outside) {
        this.#raise(reached, raised)
        return this.#parent[state] ?? NONE
      }
      if ((state & 1) === 1) this.#expandLeft(state >> 1, reached)
      else this.#expandEntered(state >> 1, reached)
    }
  }

  /** Steps, as 4 · node + way, that the way found adds to the paths and takes from them. */
  changes(last: number): { readonly added: readonly number[]; readonly removed: readonly number[] } {
    const added = [4 * (last >> 1) + this.#exitWay]
    const removed: number[] = []
    let state = last
    for (;;) {
      const parent = this.#parent[state] ?? NONE
      if (parent === NONE) return { added, removed }
      const node = state >> 1
      const from = parent >> 1
      if (node !== from) {
        if ((parent & 1) === 1) added.push(4 * from + (this.#arrival[state] ?? 0))
        else removed.push(4 * node + (((this.#paths.back[from] ?? 0) + 2) & 3))
      }
      state = parent
    }
  }

  /** Nothing that the last search reached can ever reach the outside, whatever is connected later. */
  giveUp(): void {
    for (let index = 0; index < this.#visitedSize; index += 1)
      this.potential[this.#visited[index] ?? 0] = Infinity
  }

  #fromLevel(): number {
    this.#levelSize -= 1
    return this.#level[this.#levelSize] ?? NONE
  }

  /** The nearest state further away; NONE where there is none, TOO_LONG where it is beyond the limit. */
  #nextLevel(limit: number, raised: RaisedPotentials | null): number {
    if (this.#heap.size === 0) return NONE
    const distance = this.#heap.smallestKey
    if (distance <= limit) return this.#heap.pop()
    this.#raise(distance, raised)
    return TOO_LONG
  }

  #expandEntered(node: number, reached: number): void {
    const back = this.#paths.back[node] ?? NO_WAY
    const state = 2 * node
    const own = reached - (this.potential[state] ?? 0)
    if (back === NO_WAY) {
      this.#reach(state, state + 1, own, reached, this.#arrival[state] ?? 0)
      return
    }
    // Somebody's path comes here: that path may end its old way one node earlier.
    const before = this.#neighbours[4 * node + back] ?? OUTSIDE
    const length = this.#lengths[4 * before + ((back + 2) & 3)] ?? 0
    this.#reach(state, 2 * before + 1, own - length, reached, 0)
  }

  #expandLeft(node: number, reached: number): void {
    const state = 2 * node + 1
    const taken = this.#paths.onward[node] ?? NO_WAY
    const own = reached - (this.potential[state] ?? 0)
    if (taken !== NO_WAY && this.#paths.started[node] !== 1) this.#reach(state, 2 * node, own, reached, 0)
    const open = this.#ways[node] ?? 0
    // The way by which the search came is tried last and taken first.
    const straight = this.#arrival[state] ?? 0
    for (let turn = 1; turn <= 4; turn += 1) {
      const way = (straight + turn) & 3
      if ((open & (1 << way)) !== 0 && way !== taken) this.#step(node, way, own, reached)
    }
  }

  /** One step on, unless into a start or against a path. */
  #step(node: number, way: number, own: number, reached: number): void {
    const length = own + (this.#lengths[4 * node + way] ?? 0)
    const next = this.#neighbours[4 * node + way] ?? OUTSIDE
    if (next === OUTSIDE) {
      if (this.#note(this.#outside, length, 2 * node + 1, reached, way)) this.#exitWay = way
    } else if (this.#paths.through[next] === 1 && this.#paths.onward[next] !== ((way + 2) & 3)) {
      this.#reach(2 * node + 1, 2 * next, length, reached, way)
    }
  }

  /** @param length So far, without what is left from there. */
  #reach(from: number, to: number, length: number, reached: number, way: number): void {
    const potential = this.potential[to] ?? Infinity
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
  #raise(total: number, raised: RaisedPotentials | null): void {
    const settled = 2 * this.#search + 1
    for (let index = 0; index < this.#visitedSize; index += 1) {
      const state = this.#visited[index] ?? 0
      const distance = this.#distance[state] ?? 0
      if (this.#mark[state] !== settled || distance >= total || state === this.#outside) continue
      const before = this.potential[state] ?? 0
      this.potential[state] = before + total - distance
      if (raised !== null) {
        raised.states.push(state)
        raised.before.push(before)
      }
    }
  }
}

/** Potentials that searches raised, in turn: what was known of each state before. */
export interface RaisedPotentials {
  readonly states: number[]
  readonly before: number[]
}
