import type { RequestHandler } from 'express'
import { readBoard } from '../../board/readBoard.ts'
import { pasteProblems } from '../../report/pages/homePage.ts'
import { linkedReport } from '../../report/renderReport.ts'
import { review } from '../../review.ts'
import type { Site } from '../createApp.ts'
import { typedFields } from '../formFields.ts'
import { renderHome } from './home.ts'

/** Reviews a description that was pasted, and forgets it. */
export function reviewText(site: Site): RequestHandler {
  return async (request, response) => {
    const text = typedFields(request.body)['description'] ?? ''
    const { board, issues } = await readBoard({ file: 'pasted description', text, companion: () => null })
    if (board === null) {
      response.status(422).send(await renderHome(site, pasteProblems(text, issues)))
      return
    }
    response.send(linkedReport(review(board), site.version, { href: '/#paste', text: 'Back to the form' }))
  }
}
