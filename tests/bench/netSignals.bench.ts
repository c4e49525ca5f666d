import { bench, describe } from 'vitest'
import { readBoard } from '../../src/board/readBoard.ts'
import { escapePackage } from '../../src/escape/escapePackage.ts'
import { findFaults } from '../../src/findings/findFaults.ts'
import { tabulateLines } from '../../src/impedance/tabulateLines.ts'
import { lineSpreads } from '../../src/tolerance/lineSpreads.ts'
import { rerunOn } from '../../src/rerun.ts'
import { neckCouplings } from '../../src/signal/neckCouplings.ts'
import { netSignals } from '../../src/signal/netSignals.ts'
import { NetVias } from '../../src/signal/netVias.ts'
import { skews } from '../../src/signal/skews.ts'
import { largeBoard } from './largeBoard.ts'

const { board, issues } = await readBoard(largeBoard())
if (board === null) throw new Error(issues.map((issue) => issue.message).join('\n'))
const escapes = board.packages.map((pack) => escapePackage(board, pack))
const routes = escapes.flatMap(
  (escape) => escape.plans.find((plan) => plan.technology === escape.chosen)?.routes ?? [],
)
const lines = tabulateLines(board, routes)
const signals = netSignals(board, routes, lines, new NetVias(board, routes))

/** Aim: 300 ms for the signals of 1,500 nets, the first time. */
describe(`${board.nets.length} nets on ${routes.length} routes`, () => {
  const once = { iterations: 5, warmupIterations: 0, time: 0, warmupTime: 0 }

  bench(
    'lay out their sections and reflect their edges',
    () => {
      netSignals(board, routes, lines, new NetVias(board, routes))
    },
    once,
  )
  bench(
    'say what the traces beside them do, rows remembered after the first time',
    () => {
      neckCouplings(board, routes, lines)
    },
    once,
  )
  bench(
    'find their faults',
    () => {
      findFaults({
        board,
        escapes,
        routes,
        lines,
        signals,
        skews: skews(board, signals),
        couplings: neckCouplings(board, routes, lines),
        spreads: lineSpreads(board, lines),
        rerun: rerunOn(board, new NetVias(board, routes)),
      })
    },
    once,
  )
})
