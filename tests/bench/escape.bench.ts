import { bench, describe } from 'vitest'
import type { Board } from '../../src/board/board.ts'
import type { Package } from '../../src/board/packages.ts'
import { escapePackage } from '../../src/escape/escapePackage.ts'
import { planEscape } from '../../src/escape/planEscape.ts'
import { readBoard } from '../../src/board/readBoard.ts'
import { boardOf, packageOf, square, via } from '../escape/fixtures.ts'
import { largeBoard } from './largeBoard.ts'

/** Square arrays, 60 % signals in a regular pattern, twelve layers, blind vias to eight of them. */
function arrayOf(side: number): { board: Board; pack: Package } {
  const pack = packageOf(square(side, (row, column) => ((row * 7 + column * 3) % 5 < 2 ? 'g' : 's')))
  const blind = Array.from({ length: 8 }, (_, index) =>
    via(`to ${index + 2}`, { kind: 'blind', lastLayer: index + 2 }),
  )
  return { pack, board: boardOf(pack, { vias: [via('through'), ...blind] }) }
}

/** What was computed is looked at, so that it is not optimised away. */
let routes = 0

describe('a plan with its clearance check, through vias, 12 layers (aims: 2,500 balls 1 s, 10,000 balls 8 s)', () => {
  for (const side of [12, 25, 50, 100]) {
    const { board, pack } = arrayOf(side)
    bench(
      `${side * side} balls`,
      () => {
        routes += planEscape(board, pack, 'through').routes.length
      },
      { time: 0, iterations: 3, warmupIterations: 1, warmupTime: 0 },
    )
  }
})

describe('2,500 balls, both technologies, channels and rules', () => {
  const { board, pack } = arrayOf(50)
  bench(
    'the escape of one package',
    () => {
      routes += escapePackage(board, pack).plans.length
      if (routes === 0) throw new RangeError('nothing was planned')
    },
    { time: 0, iterations: 3, warmupIterations: 1, warmupTime: 0 },
  )
})

const large = (await readBoard(largeBoard())).board

describe('the large board: 2,500 balls, 1,500 nets of 26 classes', () => {
  const [pack] = large?.packages ?? []
  if (large === null || pack === undefined) throw new RangeError('the large board has one package')
  bench(
    'the escape of its package',
    () => {
      routes += escapePackage(large, pack).plans.length
    },
    { time: 0, iterations: 3, warmupIterations: 1, warmupTime: 0 },
  )
})
