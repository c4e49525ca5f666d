import { beforeAll, describe, expect, it } from 'vitest'
import type { Board } from '../../src/board/board.ts'
import { escapesOf, routesOf } from '../../src/escapes.ts'
import type { LineTable } from '../../src/impedance/lineTable.ts'
import { tabulateLines } from '../../src/impedance/tabulateLines.ts'
import type { Route } from '../../src/routes/route.ts'
import { exampleBoard } from '../board/exampleBoard.ts'

let board: Board
let routes: Route[]
let lines: LineTable

beforeAll(async () => {
  board = await exampleBoard()
  routes = routesOf(escapesOf(board))
  lines = tabulateLines(board, routes)
})

describe('tabulateLines', () => {
  it('has the neck of every planned route and the main route it joins', () => {
    const classOf = new Map(board.nets.map((net) => [net.name, net.class]))
    for (const route of routes) {
      const netClass = classOf.get(route.net) ?? ''
      const neck = lines.neck(netClass, route.exitLayer, route.package, route.gap)
      expect(neck).toMatchObject({ used: true, gap: route.gap, stretch: 'neck' })
      expect(lines.main(netClass, route.exitLayer)).toMatchObject({ used: true, stretch: 'main' })
    }
  })

  it('solves a main route without width for the target of its class', () => {
    const solved = lines.entries.filter((entry) => entry.widthBasis === 'solved for the target')
    const targets = new Map(board.classes.map((netClass) => [netClass.name, netClass.target]))
    expect(solved.length).toBeGreaterThan(0)
    const misses = solved.map((entry) =>
      entry.impedance === null ? 0 : entry.impedance.impedance / (targets.get(entry.netClass) ?? NaN) - 1,
    )
    // A width counts as found within half of the least error band.
    expect(Math.max(...misses.map(Math.abs))).toBeLessThan(5e-4)
    expect(solved.filter((entry) => (entry.impedance === null) !== (entry.refusal !== null))).toEqual([])
  })

  it('never makes a free neck wider than its main route', () => {
    for (const neck of lines.entries.filter((entry) => entry.widthBasis === 'widest that fits the channel')) {
      const main = lines.main(neck.netClass, neck.layer)
      expect(neck.width).toBeLessThanOrEqual(main?.width ?? Infinity)
    }
  })

  it('says why a line has no impedance and never leaves a number out silently', () => {
    for (const entry of lines.entries) expect(entry.impedance === null).toBe(entry.refusal !== null)
  })

  it('gives pairs a differential value, coupled or apart', () => {
    const pairs = new Set(board.classes.filter((each) => each.structure === 'pair').map((each) => each.name))
    const modes = lines.entries
      .filter((entry) => pairs.has(entry.netClass) && entry.impedance !== null)
      .map((entry) => entry.impedance?.chosen.modes.kind)
    expect(modes.length).toBeGreaterThan(0)
    expect(new Set(modes)).toEqual(new Set(['pair']))
  })
})
