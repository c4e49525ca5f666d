import { OUTSIDE } from './latticeSteps.ts'
import type { LatticeSteps } from './latticeSteps.ts'

/** Nodes of one path from its start, and the way by which it leaves the last of them. */
export interface LatticePath {
  readonly nodes: readonly number[]
  readonly exit: number
}

/** No way: nothing leads on from a node, or to it. */
export const NO_WAY = -1

/** Paths that lie on a lattice, no two through one node, from their starts to the outside. Steps are 4 · node + way. */
export class LatticePaths {
  /** 1 for nodes that a path may lead through; starts are left by their own path only. */
  readonly through: Uint8Array
  /** Way by which the path of a node goes on, and the way back to where it came from. */
  readonly onward: Int8Array
  readonly back: Int8Array
  /** 1 for starts that have a path. */
  readonly started: Uint8Array
  readonly #neighbours: Int32Array

  /** @param through Changed from here on. */
  constructor({ size, neighbours }: LatticeSteps, through: Uint8Array) {
    this.through = through
    this.onward = new Int8Array(size).fill(NO_WAY)
    this.back = new Int8Array(size).fill(NO_WAY)
    this.started = new Uint8Array(size)
    this.#neighbours = neighbours
  }

  /** True where a path may begin that no other leads through: at a start, or at a node that is still free. */
  mayBegin(node: number): boolean {
    return this.started[node] !== 1 && this.back[node] === NO_WAY
  }

  pathOf(start: number): LatticePath | null {
    if (this.started[start] !== 1) return null
    const nodes = [start]
    let node = start
    for (;;) {
      const way = this.onward[node] ?? NO_WAY
      if (way === NO_WAY) throw new RangeError(`the path of start ${start} ends inside the lattice`)
      const next = this.#neighbours[4 * node + way] ?? OUTSIDE
      if (next === OUTSIDE) return { nodes, exit: way }
      nodes.push(next)
      node = next
    }
  }

  /** Adds the path of a start by leading others elsewhere. */
  change(start: number, removed: readonly number[], added: readonly number[]): void {
    for (const step of removed) {
      this.onward[step >> 2] = NO_WAY
      const next = this.#neighbours[step] ?? OUTSIDE
      if (next !== OUTSIDE) this.back[next] = NO_WAY
    }
    for (const step of added) {
      const way = step & 3
      this.onward[step >> 2] = way
      const next = this.#neighbours[step] ?? OUTSIDE
      if (next !== OUTSIDE) this.back[next] = (way + 2) & 3
    }
    this.started[start] = 1
    this.through[start] = 0
  }

  /** What puts everything back as it is now after a change of the same start and steps. */
  undoOf(start: number, removed: readonly number[], added: readonly number[]): () => void {
    const nodes: number[] = []
    for (const step of [...removed, ...added]) {
      nodes.push(step >> 2)
      const next = this.#neighbours[step] ?? OUTSIDE
      if (next !== OUTSIDE) nodes.push(next)
    }
    const onward = nodes.map((node) => this.onward[node] ?? NO_WAY)
    const back = nodes.map((node) => this.back[node] ?? NO_WAY)
    const through = this.through[start] ?? 0
    return () => {
      for (const [index, node] of nodes.entries()) {
        this.onward[node] = onward[index] ?? NO_WAY
        this.back[node] = back[index] ?? NO_WAY
      }
      this.started[start] = 0
      this.through[start] = through
    }
  }
}
