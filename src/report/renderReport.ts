import type { Review } from '../review.ts'
import { inlineStyleHash, views } from './templates.ts'
import { reportModel } from './viewModel/reportModel.ts'

export interface RenderOptions {
  /** Of the program, printed with the report. */
  readonly version: string
}

/**
 * The printable review report as one complete HTML document that stands alone: its styles are inside, and its own
 * policy lets it load nothing at all.
 */
export function renderReport(review: Review, { version }: RenderOptions): string {
  const style = { linkedStyles: null, inlineStyleHash: inlineStyleHash(views()), back: null }
  return views().render('report', { ...reportData(review, version), ...style })
}

/** The same report as a page of the server, which links its stylesheets. */
export function linkedReport(
  review: Review,
  version: string,
  back: { readonly href: string; readonly text: string },
): string {
  const linkedStyles = [{ href: '/assets/base.css' }, { href: '/assets/report.css' }]
  return views().render('report', {
    ...reportData(review, version),
    linkedStyles,
    inlineStyleHash: null,
    back,
  })
}

function reportData(review: Review, version: string): object {
  const model = reportModel(review, version)
  return { ...model, pageTitle: `${model.identity.title}: breakout review` }
}
