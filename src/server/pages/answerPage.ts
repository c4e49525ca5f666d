import type { PageAnswer, PageName, PageRequest, Site } from '../page.ts'
import { boardReview } from './boardReview.ts'
import { compare } from './compare.ts'
import { dielectric } from './dielectric.ts'
import { line } from './line.ts'
import { pasted } from './pasted.ts'
import { printableReport } from './report.ts'

const PAGES: Readonly<Record<PageName, (site: Site, request: PageRequest) => Promise<PageAnswer>>> = {
  board: boardReview,
  report: printableReport,
  line,
  dielectric,
  compare,
  pasted,
}

export function answerPage(site: Site, request: PageRequest): Promise<PageAnswer> {
  return PAGES[request.page](site, request)
}
