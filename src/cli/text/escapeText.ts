import type { Board } from '../../board/board.ts'
import { packageOf } from '../../board/lookup.ts'
import type { LayerRule, PackageEscape } from '../../escape/escape.ts'
import { formatNumber } from '../../units/format.ts'
import { assumptionsText } from './assumptionsText.ts'
import { channelsText } from './channelsText.ts'
import { mainsText } from './mainsText.ts'
import { planText } from './planText.ts'
import { pairs, paragraph, table, type Column } from './table.ts'

const column = (kind: Column['kind'], title: string): Column => ({ kind, title })

/** Every package for people: layers needed, the plan, then the channels it rests on; last the files written. */
export function escapeText(
  board: Board,
  escapes: readonly PackageEscape[],
  written: readonly string[] = [],
): string {
  const files = written.length === 0 ? [] : [paragraph(`Written: ${written.join(', ')}`)]
  return [...escapes.map((escape) => packageText(board, escape)), ...files].join('\n')
}

function packageText(board: Board, escape: PackageEscape): string {
  const { signals } = escape
  const plan = escape.plans.find(({ technology }) => technology === escape.chosen)
  const used = plan?.layers.filter(({ escaped }) => escaped > 0).length ?? 0
  const left = plan?.unescaped.length ?? 0
  const basis = signals.assumed ? 'assumed: a share of the balls' : 'from the ball map'
  return [
    paragraph(
      `${escape.package}: ${used} signal layers by ${escape.chosen} vias take out ${signals.count - left} of ${signals.count} signals`,
    ),
    pairs([
      ['channels per layer', String(escape.channelsPerLayer)],
      ['signals', `${signals.count} (${basis}), deepest in ring ${signals.deepestRing}`],
      ...escape.claims.map(claimRow),
    ]),
    ...(plan === undefined ? [] : [planText(board, plan, 'Plan'), mainsText(board, escape)]),
    '\n  Signal layers needed, by rule\n',
    rulesText(escape.rules),
    '\n  Channels\n',
    channelsText(board, packageOf(board, escape.package), escape.channels),
    ...escape.plans
      .filter((other) => other !== plan)
      .map((other) => planText(board, other, 'For comparison, the plan')),
    assumptionsText(escape.plans.flatMap(({ assumed }) => assumed)),
  ].join('')
}

function claimRow(claim: PackageEscape['claims'][number]): [string, string] {
  const computed = claim.computed ?? 'no number is enough'
  return [
    `claim ${claim.verdict}`,
    `${claim.claimed} signal layers by ${claim.technology} vias (${claim.source}); computed: ${computed}. ${claim.reason}`,
  ]
}

function rulesText(rules: readonly LayerRule[]): string {
  const rows = rules.map((rule) => [
    rule.id,
    rule.technology,
    rule.signalLayers === null ? 'none' : String(rule.signalLayers),
    rule.unrounded === null ? '-' : formatNumber(rule.unrounded),
    rule.basis,
  ])
  const sources = new Map(rules.map((rule) => [`${rule.id} (${rule.technology})`, rule.source]))
  return [
    table(
      [
        column('word', 'rule'),
        column('word', 'vias'),
        column('number', 'layers'),
        column('number', 'unrounded'),
        column('word', 'from'),
      ],
      rows,
      4,
    ),
    ...[...sources].map(([rule, source]) => paragraph(`${rule}: ${source}`, 4, 2)),
  ].join('')
}
