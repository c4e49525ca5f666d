/**
 * Reads and reviews the large board twice in one process and prints seconds: cold, and with its sections remembered.
 * Bundled and run by review.bench.ts in a node of its own.
 */
import { readBoard } from '../../src/board/readBoard.ts'
import { review } from '../../src/review.ts'
import { largeBoard } from './largeBoard.ts'

async function main(): Promise<void> {
  const start = performance.now()
  const { board } = await readBoard(largeBoard())
  if (board === null) throw new Error('the large board does not read')
  const read = performance.now()
  review(board)
  const cold = performance.now()
  review(board)
  const remembered = performance.now()
  console.log(
    [read - start, cold - read, remembered - cold].map((time) => (time / 1000).toFixed(2)).join(' '),
  )
}

void main()
