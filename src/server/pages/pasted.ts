import { readBoard } from '../../board/readBoard.ts'
import { pasteProblems } from '../../report/pages/homePage.ts'
import { linkedReport } from '../../report/renderReport.ts'
import { review } from '../../review.ts'
import type { PageAnswer, PageRequest, Site } from '../page.ts'
import { renderHome } from './home.ts'

/** Reviews a description that was pasted, and forgets it. */
export async function pasted(site: Site, { fields }: PageRequest): Promise<PageAnswer> {
  const text = fields['description'] ?? ''
  const { board, issues } = await readBoard({ file: 'pasted description', text, companion: () => null })
  if (board === null) {
    return { status: 422, html: await renderHome(site, pasteProblems(text, issues)), counted: null }
  }
  const html = linkedReport(review(board), site.version, { href: '/#paste', text: 'Back to the form' })
  return { status: 200, html, counted: null }
}
