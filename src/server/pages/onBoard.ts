import type { Board } from '../../board/board.ts'
import { messagePage } from '../../report/pages/messagePage.ts'
import { problemsPage } from '../../report/pages/problemsPage.ts'
import { renderPage } from '../../report/renderPage.ts'
import type { ShelvedBoard } from '../boardShelf.ts'
import type { PageAnswer, PageRequest, Site } from '../page.ts'

export interface FoundBoard {
  readonly name: string
  readonly board: Board
  readonly shelved: ShelvedBoard
}

type Answer = (found: FoundBoard) => PageAnswer | Promise<PageAnswer>

/** A page of one board: an unknown name ends with 404, a description with errors with 422 and all of them. */
export async function onBoard(
  { shelf, version }: Site,
  { board: name }: PageRequest,
  answer: Answer,
): Promise<PageAnswer> {
  const shelved = await shelf.board(name)
  if (shelved === null) {
    return { status: 404, html: renderPage('message', messagePage('unknownBoard', version)), counted: null }
  }
  const { board, issues } = shelved.reading
  if (board === null) {
    return { status: 422, html: renderPage('problems', problemsPage(name, issues, version)), counted: null }
  }
  return answer({ name, board, shelved })
}
