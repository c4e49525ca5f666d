import type { RequestHandler } from 'express'
import { boardPage } from '../../report/pages/boardPage.ts'
import { renderPage } from '../../report/renderPage.ts'
import type { Site } from '../createApp.ts'
import { withBoard } from '../withBoard.ts'

export function showBoard(site: Site): RequestHandler<{ name: string }> {
  return withBoard(site, ({ name, shelved }, _request, response) => {
    const review = shelved.review()
    if (review === null) throw new Error(`the board ${name} has no review`)
    response.send(renderPage('board', boardPage(name, review, shelved.reading.issues, site.version)))
  })
}
