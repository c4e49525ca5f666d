import { MinimumHeap } from '../../numerics/minimumHeap.ts'
import { WAYS } from './lattice.ts'
import type { Lattice } from './lattice.ts'

/** Nodes of one path from its start, and the way by which it leaves the last of them. */
export interface LatticePath {
  readonly nodes: readonly number[]
  readonly exit: number
}

/** Lengths are counted in whole nanometres, so that sums and differences of them are exact. */
export const STEPS_PER_METRE = 1e9
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
 * Each node has two states: entered (node) and left (node + size). Reduced lengths stay non-negative by
 * potentials that begin as the distance to the outside (J. Edmonds, R. Karp, Theoretical improvements in
 * algorithmic efficiency for network flow problems, J. ACM 19, 1972).
 */
export class DisjointPaths {
  readonly #lattice: Lattice
  readonly #size: number
  /** The state of having reached the outside, and the way by which the nearest exit leads there. */
  readonly #outside: number
  #exitWay = NONE
  /** Whether paths may lead through a node; starts are left by their own path only. */
  readonly #through: Uint8Array
  /** Way by which the path of a node goes on, and the way back to where it came from. */
  readonly #onward: Int8Array
  readonly #back: Int8Array
  readonly #started: Uint8Array
  /** Distance to the outside by states, with the present paths in place; Infinity where there is none. */
  readonly #potential: Float64Array
  readonly #steps: Float64Array
  readonly #distance: Float64Array
  readonly #seen: Int32Array
  readonly #settled: Int32Array
  readonly #parent: Int32Array
  readonly #heap = new MinimumHeap()
  #search = 0
  #visited: number[] = []
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
    this.#lattice = lattice
    this.#size = size
    this.#through = new Uint8Array(size)
    for (let node = 0; node < size; node += 1) this.#through[node] = blocked(node) ? 0 : 1
    for (const start of starts) this.#through[start] = 0
    this.#onward = new Int8Array(size).fill(NONE)
    this.#back = new Int8Array(size).fill(NONE)
    this.#started = new Uint8Array(size)
    this.#outside = 2 * size
    this.#distance = new Float64Array(2 * size + 1)
    this.#seen = new Int32Array(2 * size + 1)
    this.#settled = new Int32Array(2 * size + 1)
    this.#parent = new Int32Array(2 * size + 1)
    this.#steps = new Float64Array(4 * size).fill(Infinity)
    for (let node = 0; node < size; node += 1) {
      for (const way of WAYS) {
        if (!lattice.isOpen(node, way)) continue
        if (lattice.next(node, way) === NONE && !mayExit(way)) continue
        this.#steps[4 * node + way] = Math.max(1, Math.round(lattice.stepLength(node, way) * STEPS_PER_METRE))
      }
    }
    this.#potential = this.#distancesToOutside()
  }

  /** Length of the way out in nanometres with the present paths in place, or less; Infinity where there is none. */
  wayOut(node: number): number {
    return this.#potential[node + this.#size] ?? Infinity
  }

  /** True where a path may begin that no other leads through: at a start, or at a node that is still free. */
  mayBegin(node: number): boolean {
    return this.#started[node] !== 1 && this.#back[node] === NONE
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
      // Nothing reached here can ever reach the outside, whatever is connected later.
      if (this.#undo === null) for (const state of this.#visited) this.#potential[state] = Infinity
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
    return this.#started[start] === 1
  }

  pathOf(start: number): LatticePath | null {
    if (this.#started[start] !== 1) return null
    const nodes = [start]
    let node = start
    for (;;) {
      const way = this.#onward[node] ?? NONE
      if (way === NONE) throw new RangeError(`the path of start ${start} ends inside the lattice`)
      const next = this.#lattice.next(node, way)
      if (next === NONE) return { nodes, exit: way }
      nodes.push(next)
      node = next
    }
  }

  /**
   * Nodes of a minimum cut: every way to the outside of a start that was refused leads through one of them, and each
   * of them carries a path.
   */
  cutNodes(): number[] {
    const found: number[] = []
    for (let node = 0; node < this.#size; node += 1) {
      if (this.#isDead(node + this.#size) || this.#through[node] !== 1) continue
      const back = this.#back[node] ?? NONE
      if (back === NONE) continue
      const before = this.#lattice.next(node, back)
      if (this.#isDead(node) || this.#isDead(before + this.#size)) found.push(node)
    }
    return found
  }

  /** True where no path can lead from the start any more, and for starts from which only a cut leads out. */
  isBehindCut(start: number): boolean {
    return this.#isDead(start + this.#size)
  }

  #isDead(state: number): boolean {
    return this.#potential[state] === Infinity
  }

  #distancesToOutside(): Float64Array {
    const size = this.#size
    const potential = new Float64Array(2 * size).fill(Infinity)
    const heap = new MinimumHeap()
    const shorten = (node: number, length: number): void => {
      if (length >= (potential[node + size] ?? Infinity)) return
      potential[node + size] = length
      heap.push(length, node)
    }
    for (let node = 0; node < size; node += 1) {
      for (const way of WAYS)
        if (this.#lattice.next(node, way) === NONE) shorten(node, this.#stepOf(node, way))
    }
    const done = new Uint8Array(size)
    while (heap.size > 0) {
      const node = heap.pop()
      if (done[node] === 1) continue
      done[node] = 1
      if (this.#through[node] !== 1) continue
      const own = potential[node + size] ?? Infinity
      potential[node] = own
      for (const way of WAYS) {
        const neighbour = this.#lattice.next(node, way)
        if (neighbour !== NONE) shorten(neighbour, own + this.#stepOf(neighbour, (way + 2) % 4))
      }
    }
    return potential
  }

  /** Length of one step; Infinity where the way is closed. */
  #stepOf(node: number, way: number): number {
    return this.#steps[4 * node + way] ?? Infinity
  }

  /** Least way to the outside in the residual network: its last state inside; NONE or TOO_LONG where there is none. */
  #shortest(start: number, longest: number): number {
    const origin = start + this.#size
    this.#visited = []
    this.#search += 1
    const base = this.#potential[origin] ?? Infinity
    if (base === Infinity) return NONE
    if (base > longest) return TOO_LONG
    this.#heap.clear()
    // States as near as the present one are taken last in, first out: the search runs straight ahead among equals.
    const level: number[] = []
    this.#note(origin, 0, NONE, level, 0)
    for (;;) {
      const state = level.pop() ?? this.#nextLevel(longest - base)
      if (state < 0) return state
      if (this.#settled[state] === this.#search) continue
      this.#settled[state] = this.#search
      const reached = this.#distance[state] ?? 0
      if (state === this.#outside) {
        this.#raise(reached)
        return this.#parent[state] ?? NONE
      }
      if (state < this.#size) this.#expandEntered(state, reached, level)
      else this.#expandLeft(state - this.#size, reached, level)
    }
  }

  /** The nearest state further away; NONE where there is none, TOO_LONG where it is beyond the limit. */
  #nextLevel(limit: number): number {
    if (this.#heap.size === 0) return NONE
    const distance = this.#heap.smallestKey
    if (distance <= limit) return this.#heap.pop()
    this.#raise(distance)
    return TOO_LONG
  }

  #expandEntered(node: number, reached: number, level: number[]): void {
    const back = this.#back[node] ?? NONE
    if (back === NONE) {
      this.#reach(node, node + this.#size, 0, reached, level)
      return
    }
    // Somebody's path comes here: that path may end its old way one node earlier.
    const before = this.#lattice.next(node, back)
    const length = this.#steps[4 * before + ((back + 2) % 4)] ?? 0
    this.#reach(node, before + this.#size, 0 - length, reached, level)
  }

  #expandLeft(node: number, reached: number, level: number[]): void {
    const state = node + this.#size
    const onward = this.#onward[node] ?? NONE
    if (onward !== NONE && this.#started[node] !== 1) this.#reach(state, node, 0, reached, level)
    const straight = this.#arrivedBy(state)
    for (let turn = 1; turn <= 4; turn += 1) {
      const way = (straight + turn) % 4
      const step = this.#stepOf(node, way)
      if (step === Infinity || way === onward) continue
      const next = this.#lattice.next(node, way)
      if (next !== NONE) this.#step(state, next, way, step, reached, level)
      else if (
        this.#note(this.#outside, reached + step - (this.#potential[state] ?? 0), state, level, reached)
      ) {
        this.#exitWay = way
      }
    }
  }

  #step(state: number, next: number, way: number, step: number, reached: number, level: number[]): void {
    if (this.#through[next] === 1 && this.#onward[next] !== (way + 2) % 4) {
      this.#reach(state, next, step, reached, level)
    }
  }

  /** Way by which the search came to a state, so that it is tried last and taken first. */
  #arrivedBy(state: number): number {
    const entered = this.#parent[state] ?? NONE
    if (entered < 0 || entered >= this.#size || entered !== state - this.#size) return 0
    const from = this.#parent[entered] ?? NONE
    if (from < this.#size) return 0
    const node = from - this.#size
    for (const way of WAYS) if (this.#lattice.next(node, way) === entered) return way
    return 0
  }

  #reach(from: number, to: number, length: number, reached: number, level: number[]): void {
    const potential = this.#potential[to] ?? Infinity
    if (potential === Infinity) return
    const distance = reached + length + potential - (this.#potential[from] ?? 0)
    this.#note(to, distance, from, level, reached)
  }

  /** True where this is the shortest way known to the state. */
  #note(state: number, distance: number, parent: number, level: number[], reached: number): boolean {
    if (this.#settled[state] === this.#search) return false
    const known = this.#seen[state] === this.#search ? (this.#distance[state] ?? Infinity) : Infinity
    if (distance >= known) return false
    if (known === Infinity) this.#visited.push(state)
    this.#seen[state] = this.#search
    this.#distance[state] = distance
    this.#parent[state] = parent
    if (distance <= reached) level.push(state)
    else this.#heap.push(distance, state)
    return true
  }

  /** States nearer than the outside are now that much further from it. */
  #raise(total: number): void {
    const raised: [number, number][] = []
    for (const state of this.#visited) {
      const distance = this.#distance[state] ?? 0
      if (this.#settled[state] !== this.#search || distance >= total || state === this.#outside) continue
      const before = this.#potential[state] ?? 0
      this.#potential[state] = before + total - distance
      if (this.#undo !== null) raised.push([state, before])
    }
    this.#undo?.push(() => {
      for (const [state, before] of raised) this.#potential[state] = before
    })
  }

  #augment(start: number, last: number): void {
    const size = this.#size
    const added: [number, number][] = [[last - size, this.#exitWay]]
    const removed: [number, number][] = []
    let state = last
    for (;;) {
      const parent = this.#parent[state] ?? NONE
      if (parent === NONE) break
      const node = state % size
      const from = parent % size
      if (node !== from) {
        if (parent >= size) added.push([from, this.#wayTo(from, node)])
        else removed.push([node, this.#wayTo(node, from)])
      }
      state = parent
    }
    const before = [...removed, ...added].flatMap(([node, way]) => {
      const next = this.#lattice.next(node, way)
      return next === NONE ? [node] : [node, next]
    })
    this.#remember(before, start)
    for (const [node, way] of removed) {
      this.#onward[node] = NONE
      const next = this.#lattice.next(node, way)
      if (next !== NONE) this.#back[next] = NONE
    }
    for (const [node, way] of added) {
      this.#onward[node] = way
      const next = this.#lattice.next(node, way)
      if (next !== NONE) this.#back[next] = (way + 2) % 4
    }
    this.#started[start] = 1
    this.#through[start] = 0
  }

  #remember(nodes: readonly number[], start: number): void {
    const kept = nodes.map((node) => [node, this.#onward[node] ?? NONE, this.#back[node] ?? NONE] as const)
    const through = this.#through[start] ?? 0
    this.#undo?.push(() => {
      for (const [node, onward, back] of kept) {
        this.#onward[node] = onward
        this.#back[node] = back
      }
      this.#started[start] = 0
      this.#through[start] = through
    })
  }

  #wayTo(from: number, to: number): number {
    const way = WAYS.find((each) => this.#lattice.next(from, each) === to)
    if (way === undefined) throw new RangeError(`the nodes ${from} and ${to} are no neighbours`)
    return way
  }
}
