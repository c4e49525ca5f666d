import type { Board } from '../../board/board.ts'
import type { Outcome, TechnologyComparison, TechnologyRow } from '../../compare.ts'
import { formatLength, formatNumber, formatOhms, formatOhmsWithBand } from '../../units/format.ts'
import { assumptionsText } from './assumptionsText.ts'
import { layerName } from './layerName.ts'
import { pairs, paragraph, table, type Column } from './table.ts'

const column = (kind: Column['kind'], title: string): Column => ({ kind, title })

/** Ways to build each breakout for people: layers and order of cost, then necks, then what each way changes. */
export function compareText(board: Board, comparisons: readonly TechnologyComparison[]): string {
  return comparisons.map((comparison) => packageText(board, comparison)).join('\n')
}

function packageText(board: Board, comparison: TechnologyComparison): string {
  const { rows, signalLayers, costRules } = comparison
  const described = rows.find(({ id }) => id === 'as described')?.outcome?.whyNot ?? null
  return [
    paragraph(
      `${comparison.package}: ${rows.length} ways to build the breakout; the stackup has ${signalLayers} signal layers`,
    ),
    '\n',
    layersTable(comparison),
    paragraph(
      'layers: by the plan (heuristic); out and inside: nets; at least: layers, proven; by rows, by channels, over four: layers by rules of thumb, which narrows escape explains',
      4,
      2,
    ),
    ...costRules.map((rule, index) => paragraph(`${index === 0 ? 'cost: ' : ''}${rule}`, 4, 2)),
    '\n  Necks\n',
    necksTable(board, rows),
    ...methodsOf(rows).map((method) => paragraph(`worst impedance: ${method}`, 4, 2)),
    paragraph('off: from the target, in tolerances of its class; 1 and -1 are its ends', 4, 2),
    '\n  What each way changes\n',
    pairs(
      rows.flatMap((row) => changeRows(row, described)),
      4,
    ),
    assumptionsText(rows.flatMap(({ assumed }) => assumed)),
  ].join('')
}

function layersTable({ rows, signalLayers }: TechnologyComparison): string {
  return table(
    [
      column('number', 'cost'),
      column('word', 'way'),
      column('word', 'layers'),
      column('number', 'out'),
      column('number', 'inside'),
      column('number', 'at least'),
      column('number', 'by rows'),
      column('number', 'by channels'),
      column('number', 'over four'),
    ],
    rows.map(({ id, outcome }) =>
      outcome === null
        ? ['-', id, 'cannot be built', '-', '-', '-', '-', '-', '-']
        : [
            outcome.cost === null ? '-' : String(outcome.cost.rank),
            id,
            outcome.unescaped === 0 ? `${outcome.layersNeeded} of ${signalLayers}` : outcome.layersNeeded,
            String(outcome.netsOut),
            String(outcome.unescaped),
            outcome.atLeastLayers === null ? 'none' : String(outcome.atLeastLayers),
            ruleText(outcome, 'rows'),
            ruleText(outcome, 'signals to channels, up'),
            ruleText(outcome, 'rows over four'),
          ],
    ),
    4,
  )
}

function ruleText({ rules }: Outcome, id: Outcome['rules'][number]['id']): string {
  const layers = rules.find((rule) => rule.id === id)?.signalLayers ?? null
  return layers === null ? 'none' : String(layers)
}

function necksTable(board: Board, rows: readonly TechnologyRow[]): string {
  const length = (metres: number): string => formatLength(metres, board.displayUnit)
  return table(
    [
      column('word', 'way'),
      column('number', 'longest'),
      column('word', 'of'),
      column('word', 'worst impedance'),
      column('word', 'of'),
      column('number', 'target'),
      column('number', 'off'),
    ],
    rows.flatMap(({ id, outcome }) => {
      if (outcome === null) return []
      const { longestNeck: longest, worstNeck: worst } = outcome
      const first =
        longest === null
          ? ['-', '-']
          : [length(longest.length), `${longest.ball} on ${layerName(board, longest.layer)}`]
      if (worst === null) return [[id, ...first, '-', '-', '-', '-']]
      const gap = worst.gap === null ? '' : `, gap ${length(worst.gap)}`
      return [
        [
          id,
          ...first,
          `${formatOhmsWithBand(worst.impedance, worst.band)} ${worst.kind}, ${worst.between}`,
          `${worst.netClass} on ${layerName(board, worst.layer)}, ${length(worst.width)} wide${gap}`,
          formatOhms(worst.target),
          signed(worst.tolerances),
        ],
      ]
    }),
    4,
  )
}

/** Each method that gave a value, with the ways it gave one for where there are several. */
function methodsOf(rows: readonly TechnologyRow[]): string[] {
  const ways = new Map<string, string[]>()
  for (const { id, outcome } of rows) {
    const method = outcome?.worstNeck?.method
    if (method !== undefined) ways.set(method, [...(ways.get(method) ?? []), id])
  }
  return [...ways].map(([method, ids]) => (ways.size === 1 ? method : `${method} (${ids.join(', ')})`))
}

function signed(value: number): string {
  return `${value > 0 ? '+' : ''}${formatNumber(value, 2)}`
}

/** What is built as described stands there already; a reason that was given for it is not said again. */
function changeRows(
  { id, change, state, outcome }: TechnologyRow,
  described: string | null,
): [string, string][] {
  if (id !== 'as described' && state !== 'differs') return [[id, `${state}: ${change}`]]
  const said = outcome === null ? [] : outcomeWords(outcome, id === 'as described' ? null : described)
  return [[id, change], ...said.map((words): [string, string] => ['', words])]
}

function outcomeWords(
  { notes, cost, whyNot, unescaped, faults }: Outcome,
  saidAlready: string | null,
): string[] {
  const reason = whyNot === saidAlready ? 'for the same reason as described' : `e.g. ${whyNot ?? ''}`
  return [
    ...(cost === null ? [] : [cost.basis]),
    ...notes,
    ...(whyNot === null ? [] : [`${unescaped} inside, ${reason}`]),
    ...(faults === 0
      ? []
      : [
          `FAULT OF THE PROGRAM: its plan broke clearance rules in ${faults} places; the nets concerned were taken out`,
        ]),
  ]
}
