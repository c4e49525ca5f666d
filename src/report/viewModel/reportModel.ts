import type { Review } from '../../review.ts'
import { answer } from './answer.ts'
import type { Answer } from './answer.ts'
import { CAUTIONS, SIGNATURES } from './cautions.ts'
import { reportContext } from './context.ts'
import { findingsModel } from './findings.ts'
import type { FindingsModel } from './findings.ts'
import { identity } from './identity.ts'
import type { Identity } from './identity.ts'
import type { Section } from './section.ts'
import { appendixSection } from './sections/appendix.ts'
import { couplingSection } from './sections/coupling.ts'
import { dielectricSection } from './sections/dielectric.ts'
import { discontinuitiesSection } from './sections/discontinuities.ts'
import { escapeSection } from './sections/escape.ts'
import { methodsSection } from './sections/methods.ts'
import { impedanceSection } from './sections/impedance.ts'
import { processSection } from './sections/process.ts'
import { inputsSection } from './sections/inputs.ts'
import { layerCountSection } from './sections/layerCount.ts'
import { manufacturabilitySection } from './sections/manufacturability.ts'
import { packagesSection } from './sections/packages.ts'
import { questionsSection } from './sections/questions.ts'
import { sourcesSection } from './sections/sources.ts'
import { stackupSection } from './sections/stackup.ts'
import { timingSection } from './sections/timing.ts'

/** Everything the report prints, in its order: the answer first, then the reasons, then the inputs. */
export interface ReportModel {
  readonly identity: Identity
  readonly answer: Answer
  readonly findings: FindingsModel
  readonly sections: readonly Section[]
  readonly cautions: readonly string[]
  readonly signatures: typeof SIGNATURES
  readonly closing: readonly Section[]
  readonly contents: readonly { readonly href: string; readonly title: string }[]
}

export function reportModel(review: Review, version: string): ReportModel {
  const context = reportContext(review)
  const sections = [
    packagesSection(context),
    stackupSection(context),
    escapeSection(context),
    layerCountSection(context),
    impedanceSection(context),
    processSection(context),
    discontinuitiesSection(context),
    couplingSection(context),
    timingSection(context),
    dielectricSection(context),
    manufacturabilitySection(context),
    inputsSection(context),
    methodsSection(context),
    questionsSection(context),
  ]
  const closing = [sourcesSection(context), appendixSection(context)]
  const entry = ({ id, title }: Section): { href: string; title: string } => ({ href: `#${id}`, title })
  return {
    identity: identity(context, version),
    answer: answer(context),
    findings: findingsModel(context),
    sections,
    cautions: CAUTIONS,
    signatures: SIGNATURES,
    closing,
    contents: [
      { href: '#answer', title: 'The answer first' },
      { href: '#findings', title: 'Findings' },
      ...sections.map(entry),
      { href: '#cautions', title: 'Cautions' },
      { href: '#sign-off', title: 'Sign-off' },
      ...closing.map(entry),
    ],
  }
}
