import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { z } from 'zod'
import { FlowNetwork } from '../../src/numerics/maximumFlow.ts'

const programmes = z
  .object({ rows: z.array(z.tuple([z.int(), z.array(z.int()), z.int()])).min(30) })
  .parse(
    JSON.parse(readFileSync(join(import.meta.dirname, '../../reference/escape/maximumFlow.json'), 'utf8')),
  )

interface Arc {
  readonly from: number
  readonly to: number
  readonly capacity: number
  readonly back: number
}

/** A small network whose first node is the source and whose last is the sink. */
interface Small {
  readonly nodes: number
  readonly arcs: readonly Arc[]
}

const small: fc.Arbitrary<Small> = fc.integer({ min: 2, max: 7 }).chain((nodes) => {
  const node = fc.integer({ min: 0, max: nodes - 1 })
  const arc = fc.record({
    from: node,
    to: node,
    capacity: fc.integer({ min: 0, max: 9 }),
    back: fc.oneof(fc.constant(0), fc.integer({ min: 0, max: 9 })),
  })
  return fc.array(arc, { maxLength: 16 }).map((arcs) => ({ nodes, arcs }))
})

function networkOf({ nodes, arcs }: Small): FlowNetwork {
  const network = new FlowNetwork(nodes)
  for (const { from, to, capacity, back } of arcs) network.addArc(from, to, capacity, back)
  return network
}

/** Capacity out of a set of nodes, given by its bits. */
function cutOf(arcs: readonly Arc[], set: number): number {
  const inside = (node: number): boolean => ((set >> node) & 1) === 1
  return arcs.reduce(
    (sum, { from, to, capacity, back }) =>
      sum + (inside(from) && !inside(to) ? capacity : 0) + (inside(to) && !inside(from) ? back : 0),
    0,
  )
}

/** All sets of nodes with the first and without the last. */
function setsOf(nodes: number): number[] {
  return Array.from({ length: 2 ** (nodes - 2) }, (_, bits) => 1 + 2 * bits)
}

describe('FlowNetwork', () => {
  // L. R. Ford, D. R. Fulkerson, Canadian Journal of Mathematics 8, 1956, theorem 1: all cuts are tried.
  it('sends as much as the cheapest of all cuts lets through, and names the smallest cheapest cut', () => {
    fc.assert(
      fc.property(small, (graph) => {
        const flow = networkOf(graph).solve(0, graph.nodes - 1)
        const sets = setsOf(graph.nodes)
        const cheapest = Math.min(...sets.map((set) => cutOf(graph.arcs, set)))
        expect(flow.value).toBe(cheapest)
        const smallest = sets
          .filter((set) => cutOf(graph.arcs, set) === cheapest)
          .reduce((common, set) => common & set)
        expect([...flow.sourceSide].reduce((bits, side, node) => bits + side * 2 ** node, 0)).toBe(smallest)
      }),
      { seed: 17, numRuns: 500 },
    )
  })

  it('sends a flow that keeps to the capacities and loses nothing on the way', () => {
    fc.assert(
      fc.property(small, (graph) => {
        const flow = networkOf(graph).solve(0, graph.nodes - 1)
        const kept = new Array<number>(graph.nodes).fill(0)
        for (const [index, { from, to, capacity, back }] of graph.arcs.entries()) {
          const sent = flow.flowOn(index)
          expect(sent).toBeLessThanOrEqual(capacity)
          expect(sent).toBeGreaterThanOrEqual(-back)
          kept[from] = (kept[from] ?? 0) - sent
          kept[to] = (kept[to] ?? 0) + sent
        }
        const expected = kept.map(() => 0)
        expected[0] = 0 - flow.value
        expected[graph.nodes - 1] = flow.value
        expect(kept).toEqual(expected)
      }),
      { seed: 17, numRuns: 500 },
    )
  })

  // reference/escape/maximumFlow.json: the flow as a linear programme, solved by HiGHS.
  it.each(programmes.rows)('agrees with the linear programme on %i nodes', (nodes, arcs, value) => {
    const network = new FlowNetwork(nodes)
    for (let index = 0; index < arcs.length; index += 3) {
      network.addArc(arcs[index] ?? NaN, arcs[index + 1] ?? NaN, arcs[index + 2] ?? NaN)
    }
    expect(network.solve(0, nodes - 1).value).toBe(value)
  })

  // K. Menger, Fundamenta Mathematicae 10, 1927: as many paths without a common node as nodes are needed to part the sides.
  // In a grid the fewest nodes that part left from right are those on the shortest king's walk from top to bottom.
  it('finds as many disjoint paths through a grid with holes as the shortest wall has nodes', () => {
    const grid = fc.integer({ min: 1, max: 9 }).chain((rows) =>
      fc.integer({ min: 1, max: 9 }).chain((columns) =>
        fc.array(fc.array(fc.integer({ min: 0, max: 3 }), { minLength: columns, maxLength: columns }), {
          minLength: rows,
          maxLength: rows,
        }),
      ),
    )
    fc.assert(
      fc.property(grid, (weights) => {
        const free = weights.map((row) => row.map((weight) => Math.min(1, weight)))
        expect(disjointPaths(free)).toBe(shortestWall(free))
      }),
      { seed: 17, numRuns: 200 },
    )
  })

  it('goes through a chain of 100,000 nodes and can be solved twice', () => {
    const nodes = 100_000
    const network = new FlowNetwork(nodes)
    for (let node = 0; node + 1 < nodes; node += 1) network.addArc(node, node + 1, node === 77_777 ? 2 : 3)
    const flow = network.solve(0, nodes - 1)
    expect(flow.value).toBe(2)
    expect(flow.sourceSide.reduce((sum, side) => sum + side, 0)).toBe(77_778)
    expect(network.solve(0, nodes - 1).value).toBe(2)
  })

  it('is exact beyond 32 bits', () => {
    const network = new FlowNetwork(3)
    network.addArc(0, 1, 2 ** 52)
    network.addArc(1, 2, 2 ** 52 - 1)
    expect(network.solve(0, 2).value).toBe(2 ** 52 - 1)
  })

  it('refuses capacities that are not whole numbers from 0', () => {
    for (const bad of [-1, 0.5, NaN, Infinity, 2 ** 53]) {
      expect(() => new FlowNetwork(2).addArc(0, 1, bad)).toThrow(RangeError)
      expect(() => new FlowNetwork(2).addArc(0, 1, 1, bad)).toThrow(RangeError)
    }
  })

  it('refuses nodes and arcs that it does not have', () => {
    for (const bad of [-1, 2, 0.5, NaN]) {
      expect(() => new FlowNetwork(2).addArc(bad, 1, 1)).toThrow(RangeError)
      expect(() => new FlowNetwork(2).addArc(0, bad, 1)).toThrow(RangeError)
      expect(() => new FlowNetwork(2).solve(0, bad)).toThrow(RangeError)
    }
    for (const bad of [1, 0, 2.5, NaN]) expect(() => new FlowNetwork(bad)).toThrow(RangeError)
    expect(() => new FlowNetwork(2).solve(1, 1)).toThrow(RangeError)
    expect(() => new FlowNetwork(2).solve(0, 1).flowOn(0)).toThrow(RangeError)
  })
})

function disjointPaths(free: readonly (readonly number[])[]): number {
  const columns = free[0]?.length ?? 0
  const count = free.length * columns
  const network = new FlowNetwork(2 * count + 2)
  for (const [row, line] of free.entries()) {
    for (const [column, open] of line.entries()) {
      const node = row * columns + column
      network.addArc(node, count + node, open)
      if (column === 0) network.addArc(2 * count, node, 1)
      if (column === columns - 1) network.addArc(count + node, 2 * count + 1, 1)
      if (column > 0) {
        network.addArc(count + node, node - 1, 1)
        network.addArc(count + node - 1, node, 1)
      }
      if (row > 0) {
        network.addArc(count + node, node - columns, 1)
        network.addArc(count + node - columns, node, 1)
      }
    }
  }
  return network.solve(2 * count, 2 * count + 1).value
}

/** Free nodes on the walk from the top row to the lowest, by king's moves, that has the fewest. */
function shortestWall(free: readonly (readonly number[])[]): number {
  const costs = free.map((row, index) => row.map((open) => (index === 0 ? open : Infinity)))
  let changed = true
  while (changed) {
    changed = false
    for (const [row, line] of free.entries()) {
      for (const [column, open] of line.entries()) {
        const near = [-1, 0, 1].flatMap((down) =>
          [-1, 0, 1].map((right) => costs[row + down]?.[column + right] ?? Infinity),
        )
        const cost = Math.min(...near) + open
        const before = costs[row]
        if (before && cost < (before[column] ?? 0)) {
          before[column] = cost
          changed = true
        }
      }
    }
  }
  return Math.min(...(costs.at(-1) ?? []))
}
