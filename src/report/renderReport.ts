import type { Review } from '../review.ts'
import { inlineStyleHash, views } from './templates.ts'
import { reportModel } from './viewModel/reportModel.ts'

export interface RenderOptions {
  /** Of the program, printed with the report. */
  readonly version: string
  /** Links that a server sets; without them the document carries its styles and stands alone. */
  readonly linked?: {
    readonly styles: readonly { readonly href: string }[]
    readonly back: { readonly href: string; readonly text: string }
  }
}

/**
 * The printable review report: one complete HTML document. By default it is a file on its own, with its styles
 * inside and a policy that lets it load nothing at all.
 */
export function renderReport(review: Review, { version, linked }: RenderOptions): string {
  const model = reportModel(review, version)
  return views().render('report', {
    ...model,
    pageTitle: `${model.identity.title}: breakout review`,
    linkedStyles: linked?.styles ?? null,
    inlineStyleHash: inlineStyleHash(views()),
    back: linked?.back ?? null,
  })
}
