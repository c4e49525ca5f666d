import type { Board } from '../../board/board.ts'
import { count } from '../viewModel/words.ts'
import { boardLinks } from './pageFrame.ts'
import type { BoardPlace, PageFrame } from './pageFrame.ts'

/** Shown while a page of a board is still being computed. */
export interface WaitingPage {
  readonly page: PageFrame
  readonly title: string
  readonly heading: string
  readonly text: string
  /** The page itself. */
  readonly href: string
}

const WORK: Readonly<Record<BoardPlace, readonly [heading: string, text: string]>> = {
  review: ['The review is under way', 'Every net is routed out of its package and its neck is computed'],
  report: ['The review is under way', 'Every net is routed out of its package and its neck is computed'],
  line: ['The line is being computed', 'Its field is solved'],
  dielectric: ['The thickness is being sought', 'Every net is routed, and each line of the class is solved'],
  compare: [
    'The ways are being planned',
    'For each way to build the breakout the nets are routed from the start, and the clearances of the finished plan are measured',
  ],
}

export function waitingPage(
  name: string,
  board: Board,
  place: BoardPlace,
  href: string,
  version: string,
): WaitingPage {
  const [heading, text] = WORK[place]
  return {
    page: { pageTitle: `${heading}: ${board.title}`, version, board: boardLinks(name, place) },
    title: board.title,
    heading,
    text: `${text}. With ${count(board.nets.length, 'net')} that takes some seconds. The page then appears here by itself; other pages can be read meanwhile.`,
    href,
  }
}
