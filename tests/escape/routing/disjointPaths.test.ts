import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { DisjointPaths } from '../../../src/escape/routing/disjointPaths.ts'
import { Lattice } from '../../../src/escape/routing/lattice.ts'
import { FlowNetwork } from '../../../src/numerics/maximumFlow.ts'
import type { LaneLine } from '../../../src/escape/routing/laneLines.ts'

/** A square lattice one metre apart; exits half a metre outside. */
function square(columns: number, rows: number): Lattice {
  const lines = (count: number): LaneLine[] => Array.from({ length: count }, (_, at) => ({ at, site: -1 }))
  return new Lattice(lines(columns), lines(rows), {
    left: -0.5,
    right: columns - 0.5,
    bottom: -0.5,
    top: rows - 0.5,
  })
}

interface Maze {
  readonly columns: number
  readonly rows: number
  readonly blocked: ReadonlySet<number>
  readonly starts: readonly number[]
}

const mazes = (largest: number): fc.Arbitrary<Maze> =>
  fc
    .record({
      columns: fc.integer({ min: 1, max: largest }),
      rows: fc.integer({ min: 1, max: largest }),
      marks: fc.array(fc.constantFrom('.', '.', '.', 'x', 's', 's'), {
        minLength: largest ** 2,
        maxLength: largest ** 2,
      }),
    })
    .map(({ columns, rows, marks }) => {
      const own = marks.slice(0, columns * rows)
      const where = (mark: string): number[] => own.flatMap((each, node) => (each === mark ? [node] : []))
      return { columns, rows, blocked: new Set(where('x')), starts: where('s') }
    })

function solve(maze: Maze): { paths: DisjointPaths; lattice: Lattice; connected: number[] } {
  const lattice = square(maze.columns, maze.rows)
  const paths = new DisjointPaths(
    lattice,
    maze.starts,
    (node) => maze.blocked.has(node),
    () => true,
  )
  return { paths, lattice, connected: maze.starts.filter((start) => paths.connect(start)) }
}

/** Most starts that can be connected together, by the general flow solver on the split network. */
function mostConnected({ columns, rows, blocked, starts }: Maze): number {
  const size = columns * rows
  const [sink, source] = [2 * size, 2 * size + 1]
  const network = new FlowNetwork(2 * size + 2)
  const begins = new Set(starts)
  for (let node = 0; node < size; node += 1) {
    if (blocked.has(node)) continue
    network.addArc(begins.has(node) ? source : node, node + size, 1)
    for (const next of neighbours(columns, rows, node)) {
      if (next === null) network.addArc(node + size, sink, 1)
      else if (!blocked.has(next) && !begins.has(next)) network.addArc(node + size, next, 1)
    }
  }
  return network.solve(source, sink).value
}

/** Nodes beside one; null for each way outside. */
function neighbours(columns: number, rows: number, node: number): (number | null)[] {
  const [x, y] = [node % columns, Math.floor(node / columns)]
  return [
    x + 1 < columns ? node + 1 : null,
    x > 0 ? node - 1 : null,
    y + 1 < rows ? node + columns : null,
    y > 0 ? node - columns : null,
  ]
}

describe('paths to the outside, no two through one node', () => {
  it('are as many as a plain maximum flow finds', () => {
    fc.assert(
      fc.property(mazes(7), (maze) => {
        expect(solve(maze).connected).toHaveLength(mostConnected(maze))
      }),
      { seed: 4, numRuns: 400 },
    )
  })

  it('lead from their start by open neighbours to the outside and share no node', () => {
    fc.assert(
      fc.property(mazes(8), (maze) => {
        const { paths, lattice, connected } = solve(maze)
        const used = connected.flatMap((start) => {
          const path = paths.pathOf(start)
          if (path === null) throw new RangeError('a connected start has no path')
          for (const [index, node] of path.nodes.entries()) {
            expect(maze.blocked.has(node)).toBe(false)
            const before = path.nodes[index - 1]
            const reached =
              before === undefined ? [node] : [0, 1, 2, 3].map((way) => lattice.next(before, way))
            expect(reached).toContain(node)
          }
          expect(lattice.next(path.nodes.at(-1) ?? -1, path.exit)).toBe(-1)
          return path.nodes
        })
        expect(new Set(used).size).toBe(used.length)
        expect(used.filter((node) => maze.starts.includes(node))).toHaveLength(connected.length)
      }),
      { seed: 5, numRuns: 300 },
    )
  })

  it('have a cut of as many nodes as paths come from behind it', () => {
    fc.assert(
      fc.property(mazes(8), (maze) => {
        const { paths, connected } = solve(maze)
        const behind = connected.filter((start) => paths.isBehindCut(start))
        expect(paths.cutNodes()).toHaveLength(behind.length)
      }),
      { seed: 6, numRuns: 300 },
    )
  })

  it('serve earlier starts first and still connect as many in any order', () => {
    fc.assert(
      fc.property(mazes(6), (maze) => {
        const turned = { ...maze, starts: maze.starts.toReversed() }
        expect(solve(turned).connected).toHaveLength(solve(maze).connected.length)
      }),
      { seed: 7, numRuns: 200 },
    )
  })

  it('have the least total length that any such paths have', () => {
    fc.assert(
      fc.property(mazes(4), (maze) => {
        const { paths, connected } = solve(maze)
        const few = {
          ...maze,
          starts: connected.slice(0, 3),
          blocked: new Set([
            ...maze.blocked,
            ...maze.starts.filter((start) => !connected.slice(0, 3).includes(start)),
          ]),
        }
        const again = solve(few)
        const total = again.connected.reduce(
          (sum, start) => sum + (again.paths.pathOf(start)?.nodes.length ?? NaN),
          0,
        )
        expect(paths.isConnected(connected[0] ?? -1) || connected.length === 0).toBe(true)
        expect(again.connected).toEqual(few.starts)
        expect(total).toBe(leastTotal(few))
      }),
      { seed: 8, numRuns: 150 },
    )
  })

  it('are left as they were when not all of several starts can be connected', () => {
    fc.assert(
      fc.property(mazes(6), (maze) => {
        const lattice = square(maze.columns, maze.rows)
        const paths = new DisjointPaths(
          lattice,
          maze.starts,
          (node) => maze.blocked.has(node),
          () => true,
        )
        const single = maze.starts.filter((_, index) => index % 3 === 0)
        const couples = maze.starts.filter((_, index) => index % 3 !== 0)
        for (let index = 0; index + 1 < couples.length; index += 2) {
          const couple = couples.slice(index, index + 2)
          const before = maze.starts.map((start) => paths.pathOf(start))
          const done = paths.connectAll(couple)
          const after = maze.starts.map((start) => paths.pathOf(start))
          expect(done ? before : after).toEqual(before)
          expect(couple.map((start) => paths.isConnected(start))).toEqual([done, done])
        }
        const together = single.filter((start) => paths.connect(start))
        const all = maze.starts.filter((start) => paths.isConnected(start))
        expect(
          mostConnected({
            ...maze,
            starts: all,
            blocked: new Set([...maze.blocked, ...maze.starts.filter((start) => !all.includes(start))]),
          }),
        ).toBe(all.length)
        expect(together.length).toBeLessThanOrEqual(single.length)
      }),
      { seed: 9, numRuns: 300 },
    )
  })
})

/** By trying everything: fewest nodes in all, for starts that can be connected together. */
function leastTotal({ columns, rows, blocked, starts }: Maze): number {
  const used = new Set<number>([...blocked, ...starts])
  const from = (index: number): number => {
    const start = starts[index]
    return start === undefined ? 0 : walk(start, 1, index)
  }
  const walk = (node: number, length: number, index: number): number =>
    neighbours(columns, rows, node).reduce<number>((best, next) => {
      if (next === null) return Math.min(best, length + from(index + 1))
      if (used.has(next)) return best
      used.add(next)
      const found = walk(next, length + 1, index)
      used.delete(next)
      return Math.min(best, found)
    }, Infinity)
  return from(0)
}
