import type { Issue } from '../../board/issue.ts'
import type { Review } from '../../review.ts'
import { answer } from '../viewModel/answer.ts'
import type { Answer } from '../viewModel/answer.ts'
import { reportContext } from '../viewModel/context.ts'
import { findingsModel } from '../viewModel/findings.ts'
import type { FindingsModel } from '../viewModel/findings.ts'
import { identity } from '../viewModel/identity.ts'
import type { Identity } from '../viewModel/identity.ts'
import type { Section } from '../viewModel/section.ts'
import { couplingSection } from '../viewModel/sections/coupling.ts'
import { discontinuitiesSection } from '../viewModel/sections/discontinuities.ts'
import { escapeSection } from '../viewModel/sections/escape.ts'
import { impedanceSection } from '../viewModel/sections/impedance.ts'
import { processSection } from '../viewModel/sections/process.ts'
import { packagesSection } from '../viewModel/sections/packages.ts'
import { timingSection } from '../viewModel/sections/timing.ts'
import { boardLinks, boardPath } from './pageFrame.ts'
import type { PageFrame } from './pageFrame.ts'
import { issueList } from './problemsPage.ts'
import type { IssueLine } from './problemsPage.ts'

/** The review on screen: what was found, and the tables one looks into first. The rest is in the report. */
export interface BoardPage {
  readonly page: PageFrame
  readonly identity: Identity
  readonly answer: Answer
  readonly findings: FindingsModel
  readonly sections: readonly Section[]
  readonly warnings: readonly IssueLine[]
  readonly hasWarnings: boolean
  readonly contents: readonly Entry[]
  readonly reportHref: string
}

interface Entry {
  readonly href: string
  readonly title: string
}

export function boardPage(
  name: string,
  review: Review,
  issues: readonly Issue[],
  version: string,
): BoardPage {
  const context = reportContext(review)
  const warnings = issueList(issues)
  const sections = [
    packagesSection(context),
    escapeSection(context),
    impedanceSection(context),
    processSection(context),
    discontinuitiesSection(context),
    couplingSection(context),
    timingSection(context),
  ]
  return {
    page: { pageTitle: `${review.board.title}: review`, version, board: boardLinks(name, 'review') },
    identity: identity(context, version),
    answer: answer(context),
    findings: findingsModel(context),
    sections,
    warnings,
    hasWarnings: warnings.length > 0,
    contents: [
      { href: '#answer', title: 'The answer first' },
      { href: '#findings', title: 'Findings' },
      ...sections.map(({ id, title }) => ({ href: `#${id}`, title })),
    ],
    reportHref: boardPath(name, 'report'),
  }
}
