import type { RequestHandler, Request, Response } from 'express'
import type { Board } from '../board/board.ts'
import { messagePage } from '../report/pages/messagePage.ts'
import { problemsPage } from '../report/pages/problemsPage.ts'
import { renderPage } from '../report/renderPage.ts'
import type { ShelvedBoard } from './boardShelf.ts'
import type { Site } from './createApp.ts'

export interface FoundBoard {
  readonly name: string
  readonly board: Board
  readonly shelved: ShelvedBoard
}

type Answer = (found: FoundBoard, request: Request, response: Response) => void | Promise<void>

/** A route of one board: an unknown name ends with 404, a description with errors with 422 and all of them. */
export function withBoard({ shelf, version }: Site, answer: Answer): RequestHandler<{ name: string }> {
  return async (request, response) => {
    const { name } = request.params
    const shelved = await shelf.board(name)
    if (shelved === null) {
      response.status(404).send(renderPage('message', messagePage('unknownBoard', version)))
      return
    }
    const { board, issues } = shelved.reading
    if (board === null) {
      response.status(422).send(renderPage('problems', problemsPage(name, issues, version)))
      return
    }
    await answer({ name, board, shelved }, request as Request, response)
  }
}
