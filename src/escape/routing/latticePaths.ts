import { OUTSIDE } from './latticeSteps.ts'
import type { LatticeSteps } from './latticeSteps.ts'
import { WAYS } from './lattice.ts'

/** Nodes of one path from its start, and the way by which it leaves the last of them. */
export interface LatticePath {
  readonly nodes: readonly number[]
  readonly exit: number
}

/** A step of a path: the node that it leaves, and the way. */
export type PathStep = readonly [node: number, way: number]

/** No way: nothing leads on from a node, or to it. */
export const NO_WAY = -1

/** Paths that lie on a lattice, no two through one node, from their starts to the outside. */
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
      const next = this.#next(node, way)
      if (next === OUTSIDE) return { nodes, exit: way }
      nodes.push(next)
      node = next
    }
  }

  /** Adds the path of a start by leading others elsewhere; returns what puts everything back. */
  change(start: number, removed: readonly PathStep[], added: readonly PathStep[]): () => void {
    const back = this.#kept(start, [...removed, ...added])
    for (const [node, way] of removed) {
      this.onward[node] = NO_WAY
      const next = this.#next(node, way)
      if (next !== OUTSIDE) this.back[next] = NO_WAY
    }
    for (const [node, way] of added) {
      this.onward[node] = way
      const next = this.#next(node, way)
      if (next !== OUTSIDE) this.back[next] = (way + 2) % 4
    }
    this.started[start] = 1
    this.through[start] = 0
    return back
  }

  /** Way from a node to one beside it. */
  wayTo(from: number, to: number): number {
    const way = WAYS.find((each) => this.#next(from, each) === to)
    if (way === undefined) throw new RangeError(`the nodes ${from} and ${to} are no neighbours`)
    return way
  }

  #kept(start: number, steps: readonly PathStep[]): () => void {
    const nodes = steps.flatMap(([node, way]) => {
      const next = this.#next(node, way)
      return next === OUTSIDE ? [node] : [node, next]
    })
    const kept = nodes.map((node) => [node, this.onward[node] ?? NO_WAY, this.back[node] ?? NO_WAY] as const)
    const through = this.through[start] ?? 0
    return () => {
      for (const [node, onward, back] of kept) {
        this.onward[node] = onward
        this.back[node] = back
      }
      this.started[start] = 0
      this.through[start] = through
    }
  }

  #next(node: number, way: number): number {
    return this.#neighbours[4 * node + way] ?? OUTSIDE
  }
}
