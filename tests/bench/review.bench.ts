import { bench, describe } from 'vitest'
import { parse } from 'yaml'
import { readBoard } from '../../src/board/readBoard.ts'
import { review } from '../../src/review.ts'
import { largeBoard } from './largeBoard.ts'

const source = largeBoard()
const { board, issues } = await readBoard(source)
if (board === null) throw new Error(issues.map((issue) => issue.message).join('\n'))

const { lines, routes, findings } = review(board)
const sections = new Set(
  lines.entries.flatMap((entry) => (entry.impedance === null ? [] : JSON.stringify(entry.impedance.section))),
)

/** Aim: 2 s for reading and review together, on two cores. */
describe(`a board of 2,500 balls and ${board.nets.length} nets: ${routes.length} routes, ${sections.size} distinct sections, ${findings.length} findings`, () => {
  const once = { iterations: 5, warmupIterations: 1, time: 0, warmupTime: 0 }

  bench(
    'bare: parse the description and split its ball map, nothing else',
    () => {
      const map = new TextDecoder().decode(source.companion('large-board.csv') ?? undefined)
      parse(source.text)
      map.split('\n').map((line) => line.split(','))
    },
    once,
  )
  bench(
    'read the board',
    async () => {
      await readBoard(source)
    },
    once,
  )
  bench(
    'review the board',
    () => {
      review(board)
    },
    once,
  )
  bench(
    'read and review the board',
    async () => {
      const reading = await readBoard(source)
      if (reading.board === null) throw new Error('the large board does not read')
      review(reading.board)
    },
    once,
  )
})
