import { boardPath } from '../../report/pages/pageFrame.ts'
import { linkedReport } from '../../report/renderReport.ts'
import type { PageAnswer, PageRequest, Site } from '../page.ts'
import { countOf } from './countOf.ts'
import { onBoard } from './onBoard.ts'

export function printableReport(site: Site, request: PageRequest): Promise<PageAnswer> {
  return onBoard(site, request, ({ name, shelved }) => {
    const review = shelved.review()
    if (review === null) throw new Error(`the board ${name} has no review`)
    const back = { href: boardPath(name), text: 'Back to the review on screen' }
    return { status: 200, html: linkedReport(review, site.version, back), counted: countOf(review) }
  })
}
