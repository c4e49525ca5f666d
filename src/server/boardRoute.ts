import type { RequestHandler, Response } from 'express'
import { boardPath } from '../report/pages/pageFrame.ts'
import type { BoardPlace } from '../report/pages/pageFrame.ts'
import { waitingPage } from '../report/pages/waitingPage.ts'
import { renderPage } from '../report/renderPage.ts'
import { typedFields } from './formFields.ts'
import { noteCount } from './page.ts'
import type { PageAnswer, PageName, PageRequest, Site } from './page.ts'
import { answerPage } from './pages/answerPage.ts'
import type { Patience } from './patience.ts'

/** Seconds after which a page that was not ready is asked for again. */
const ASK_AGAIN = 1

const PLACES: Readonly<Record<Exclude<PageName, 'pasted'>, BoardPlace>> = {
  board: 'review',
  report: 'report',
  line: 'line',
  dielectric: 'dielectric',
  compare: 'compare',
}

/** A page of one board; where it takes seconds, it comes from `slow`, and until it is ready a page that says so. */
export function boardRoute(
  site: Site,
  slow: Patience,
  page: keyof typeof PLACES,
): RequestHandler<{ name: string }> {
  return async (request, response) => {
    const asked = { page, board: request.params.name, fields: typedFields(request.query) }
    const answer = isSlow(asked) ? await slow.page(asked) : await answerPage(site, asked)
    if (answer !== null) await sendAnswer(site, asked, answer, response)
    else await sendWaiting(site, asked, page, response)
  }
}

export async function sendAnswer(
  site: Site,
  request: PageRequest,
  answer: PageAnswer,
  response: Response,
): Promise<void> {
  await noteCount(site, request, answer)
  response.status(answer.status).send(answer.html)
}

/** One line, and one trace over the thickness of its dielectric, take no longer than the way to a thread. */
function isSlow({ page, fields }: PageRequest): boolean {
  if (page === 'dielectric') return (fields['class'] ?? '').trim() !== ''
  return page !== 'line'
}

async function sendWaiting(
  site: Site,
  asked: PageRequest,
  page: keyof typeof PLACES,
  response: Response,
): Promise<void> {
  const board = (await site.shelf.board(asked.board))?.reading.board
  if (!board) {
    // Moved away or broken meanwhile, which is quickly said.
    await sendAnswer(site, asked, await answerPage(site, asked), response)
    return
  }
  const place = PLACES[page]
  const query = new URLSearchParams(asked.fields).toString()
  const href = boardPath(asked.board, place) + (query === '' ? '' : `?${query}`)
  response
    .status(202)
    .set('Refresh', String(ASK_AGAIN))
    .send(renderPage('waiting', waitingPage(asked.board, board, place, href, site.version)))
}
