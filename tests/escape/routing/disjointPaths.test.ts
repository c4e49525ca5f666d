import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { DisjointPaths } from '../../../src/escape/routing/disjointPaths.ts'
import { Lattice } from '../../../src/escape/routing/lattice.ts'
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

/** Plain Ford and Fulkerson on the split network, without lengths: most starts that can be connected together. */
function mostConnected({ columns, rows, blocked, starts }: Maze): number {
  const size = columns * rows
  const sink = 2 * size
  const source = sink + 1
  const capacity = new Map<string, number>()
  const ahead = new Map<number, Set<number>>()
  const join = (from: number, to: number): void => {
    capacity.set(`${from} ${to}`, 1)
    ahead.set(from, (ahead.get(from) ?? new Set()).add(to))
    ahead.set(to, (ahead.get(to) ?? new Set()).add(from))
  }
  for (let node = 0; node < size; node += 1) {
    if (blocked.has(node)) continue
    if (starts.includes(node)) join(source, node + size)
    else join(node, node + size)
    const [x, y] = [node % columns, Math.floor(node / columns)]
    for (const [nx, ny] of [
      [x + 1, y],
      [x - 1, y],
      [x, y + 1],
      [x, y - 1],
    ] as const) {
      if (nx < 0 || ny < 0 || nx >= columns || ny >= rows) join(node + size, sink)
      else if (!blocked.has(nx + ny * columns) && !starts.includes(nx + ny * columns))
        join(node + size, nx + ny * columns)
    }
  }
  let total = 0
  for (;;) {
    const from = new Map<number, number>([[source, source]])
    const queue = [source]
    for (const node of queue) {
      for (const next of ahead.get(node) ?? []) {
        if (from.has(next) || (capacity.get(`${node} ${next}`) ?? 0) === 0) continue
        from.set(next, node)
        queue.push(next)
      }
    }
    if (!from.has(sink)) return total
    total += 1
    for (let node = sink; node !== source; node = from.get(node) ?? source) {
      const before = from.get(node) ?? source
      capacity.set(`${before} ${node}`, (capacity.get(`${before} ${node}`) ?? 0) - 1)
      capacity.set(`${node} ${before}`, (capacity.get(`${node} ${before}`) ?? 0) + 1)
    }
  }
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
            if (before !== undefined)
              expect([0, 1, 2, 3].map((way) => lattice.next(before, way))).toContain(node)
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
        if (again.connected.length === few.starts.length) expect(total).toBe(leastTotal(few))
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
          if (!done) expect(maze.starts.map((start) => paths.pathOf(start))).toEqual(before)
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
  const walk = (node: number, length: number, index: number): number => {
    const [x, y] = [node % columns, Math.floor(node / columns)]
    let best = Infinity
    if (x === 0 || y === 0 || x === columns - 1 || y === rows - 1) best = length + from(index + 1)
    for (const [nx, ny] of [
      [x + 1, y],
      [x - 1, y],
      [x, y + 1],
      [x, y - 1],
    ] as const) {
      const next = nx + ny * columns
      if (nx < 0 || ny < 0 || nx >= columns || ny >= rows || used.has(next)) continue
      used.add(next)
      best = Math.min(best, walk(next, length + 1, index))
      used.delete(next)
    }
    return best
  }
  return from(0)
}
