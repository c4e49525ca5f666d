import { boardPage } from '../../report/pages/boardPage.ts'
import { renderPage } from '../../report/renderPage.ts'
import type { PageAnswer, PageRequest, Site } from '../page.ts'
import { countOf } from './countOf.ts'
import { onBoard } from './onBoard.ts'

export function boardReview(site: Site, request: PageRequest): Promise<PageAnswer> {
  return onBoard(site, request, ({ name, shelved }) => {
    const review = shelved.review()
    if (review === null) throw new Error(`the board ${name} has no review`)
    const html = renderPage('board', boardPage(name, review, shelved.reading.issues, site.version))
    return { status: 200, html, counted: countOf(review) }
  })
}
