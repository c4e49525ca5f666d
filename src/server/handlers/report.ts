import type { RequestHandler } from 'express'
import { boardPath } from '../../report/pages/pageFrame.ts'
import { linkedReport } from '../../report/renderReport.ts'
import type { Site } from '../createApp.ts'
import { withBoard } from '../withBoard.ts'

export function showReport(site: Site): RequestHandler<{ name: string }> {
  return withBoard(site, ({ name, shelved }, _request, response) => {
    const review = shelved.review()
    if (review === null) throw new Error(`the board ${name} has no review`)
    response.send(
      linkedReport(review, site.version, { href: boardPath(name), text: 'Back to the review on screen' }),
    )
  })
}
