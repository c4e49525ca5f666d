import { formatNumber } from '../../../units/format.ts'
import type { LayerRule } from '../../../escape/escape.ts'
import type { ReportContext } from '../context.ts'
import { section } from '../section.ts'
import type { Section } from '../section.ts'
import { table, verdict } from '../table.ts'
import { ABSENT, capital, technologyName, withLayerNames } from '../words.ts'

const RULE_NAMES: Readonly<Record<LayerRule['id'], string>> = {
  rows: 'Rows freed by each layer',
  'signals to channels, up': 'Signals over channels, rounded up',
  'signals to channels, nearest': 'Signals over channels, rounded to the nearest',
  'rows over four': 'A quarter of the rows',
}

/** Every published rule beside the plan: they disagree, and the reader sees by how much and why. */
export function layerCountSection({ review, layerName }: ReportContext): Section {
  const claims = review.escapes.flatMap((escape) =>
    escape.claims.map((claim) => ({ package: escape.package, ...claim })),
  )
  return section({
    id: 'layer-count',
    title: 'Layer count by each rule',
    paragraphs: [
      'Published rules disagree by half and more for one package. Each is given with what it was computed from, before and after rounding. The plan above counts whole traces past real obstacles and comes first. Planes, power and other parts come on top of every figure here.',
    ],
    tables: [
      table({
        id: 'layer-rules',
        caption: 'Signal layers by rule',
        columns: [
          'Rule',
          'Package',
          'Vias',
          '#Traces per channel',
          '>Computed from',
          '#Unrounded',
          '#Signal layers',
          '>Source',
        ],
        rows: review.escapes.flatMap((escape) =>
          escape.rules.map((rule) => [
            RULE_NAMES[rule.id],
            escape.package,
            capital(technologyName(rule.technology)),
            String(rule.tracesPerChannel),
            rule.basis,
            rule.unrounded === null ? ABSENT : formatNumber(rule.unrounded),
            rule.signalLayers === null ? 'none is enough' : String(rule.signalLayers),
            rule.source,
          ]),
        ),
        whenEmpty: 'No packages are described.',
      }),
      table({
        id: 'layer-claims',
        caption: 'Layer counts that were claimed',
        columns: ['Package', 'Vias', '#Claimed', '#Planned', 'Verdict', '>Why', '>Who says so'],
        rows: claims.map((claim) => [
          claim.package,
          capital(technologyName(claim.technology)),
          String(claim.claimed),
          claim.computed === null ? 'none is enough' : String(claim.computed),
          {
            text: '',
            verdict:
              claim.verdict === 'confirmed' ? verdict('pass', 'confirmed') : verdict('fail', 'refuted'),
          },
          withLayerNames(claim.reason, layerName),
          claim.source,
        ]),
        whenEmpty: 'The description claims no layer count.',
      }),
    ],
  })
}
