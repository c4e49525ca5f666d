import type { Review } from '../../review.ts'
import { pairs, paragraph } from './table.ts'

/** The findings for people, gravest first, and what the escape needs. */
export function reviewText(result: Review, written: readonly string[]): string {
  const { board } = result
  return [paragraph(board.title), pairs(written.map((name) => ['written', name]))].join('')
}
