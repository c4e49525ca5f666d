import { formatLength, formatNumber, formatOhms, formatPercent } from '../../units/format.ts'
import type { Board } from '../../board/board.ts'
import type { Outcome, TechnologyComparison, TechnologyRow } from '../../compare.ts'
import { slug } from '../viewModel/section.ts'
import { table, verdict } from '../viewModel/table.ts'
import type { CellText, Table } from '../viewModel/table.ts'
import { ABSENT, capital, count, ohmsWithBand } from '../viewModel/words.ts'
import { form } from './form.ts'
import type { Form, FormState } from './form.ts'
import { boardLinks, boardPath } from './pageFrame.ts'
import type { PageFrame } from './pageFrame.ts'

export interface ComparePage {
  readonly page: PageFrame
  readonly title: string
  readonly form: Form
  readonly results: readonly ComparedPackage[]
  readonly hasResults: boolean
}

export interface ComparedPackage {
  readonly id: string
  readonly heading: string
  readonly paragraphs: readonly string[]
  readonly tables: readonly Table[]
}

/** One breakout built in several ways: which package, and below it the ways side by side. */
export function comparePage(
  name: string,
  board: Board,
  state: FormState,
  comparisons: readonly TechnologyComparison[],
  version: string,
): ComparePage {
  const specs = [
    {
      name: 'package',
      label: 'Package',
      hint: 'Each way is planned from the start, so a large package takes some seconds.',
      options: board.packages.map((pack) => ({
        value: pack.name,
        text: pack.part === null ? pack.name : `${pack.name} (${pack.part})`,
      })),
    },
  ]
  return {
    page: {
      pageTitle: `Technologies for ${board.title}`,
      version,
      board: boardLinks(name, 'compare'),
    },
    title: board.title,
    form: form(boardPath(name, 'compare'), 'Compare', specs, state),
    results: comparisons.map((comparison) => compared(comparison, board)),
    hasResults: comparisons.length > 0,
  }
}

function compared(comparison: TechnologyComparison, board: Board): ComparedPackage {
  const { rows, signalLayers, costRules } = comparison
  const id = slug(comparison.package)
  return {
    id: `compare-${id}`,
    heading: `${comparison.package}: ${count(rows.length, 'way')} to build the breakout`,
    paragraphs: [
      `The stackup has ${count(signalLayers, 'signal layer')}. Each way changes one thing of the description and leaves the rest. Layers, nets out and necks are those of a plan that the clearance check has measured; the plan is heuristic, “at least” is proven. Rules of thumb stand beside it and may be off on either side.`,
      costRules.join(' '),
    ],
    tables: [
      layersTable(comparison, id),
      necksTable(rows, board, id),
      changesTable(rows, id),
      ...assumedTables(rows, id),
    ],
  }
}

function layersTable({ rows, signalLayers }: TechnologyComparison, id: string): Table {
  return table({
    id: `layers-${id}`,
    caption: 'Layers and order of cost',
    columns: [
      'Way',
      '>Signal layers',
      '#Nets out',
      '#Nets inside',
      '#At least',
      '#By rows',
      '#By channels',
      '#Rows over four',
      '#Order of cost',
    ],
    rows: rows.map(({ id: way, state, outcome }): CellText[] => {
      const head = { text: capital(way), mark: state === 'as described' && way !== state ? state : null }
      if (outcome === null) {
        const none = Array.from({ length: 7 }, () => ABSENT)
        return [head, { text: '', verdict: verdict('fail', 'cannot be built') }, ...none]
      }
      return [
        head,
        layersCell(outcome, signalLayers),
        String(outcome.netsOut),
        String(outcome.unescaped),
        outcome.atLeastLayers === null ? 'none is enough' : String(outcome.atLeastLayers),
        ruleText(outcome, 'rows'),
        ruleText(outcome, 'signals to channels, up'),
        ruleText(outcome, 'rows over four'),
        outcome.cost === null ? ABSENT : String(outcome.cost.rank),
      ]
    }),
    notes: [
      'By rows, by channels (signals over channels, rounded up) and rows over four are rules of thumb for the layers; the report explains them.',
    ],
  })
}

function layersCell({ layersNeeded, unescaped, cost }: Outcome, signalLayers: number): CellText {
  if (unescaped > 0) return { text: '', verdict: verdict('fail', layersNeeded) }
  return {
    text: '',
    verdict: verdict('pass', `${layersNeeded} of ${signalLayers}`),
    note: cost === null ? null : cost.basis,
  }
}

function ruleText({ rules }: Outcome, id: Outcome['rules'][number]['id']): string {
  const layers = rules.find((rule) => rule.id === id)?.signalLayers ?? null
  return layers === null ? 'none is enough' : String(layers)
}

function necksTable(rows: readonly TechnologyRow[], board: Board, id: string): Table {
  const length = (metres: number): string => formatLength(metres, board.displayUnit)
  const layerName = (layer: number): string => board.stackup.copper[layer - 1]?.name ?? `layer ${layer}`
  return table({
    id: `necks-${id}`,
    caption: 'Necks: the longest, and the one furthest from its target',
    columns: ['Way', '#Longest neck', '>Worst impedance', 'Target', '#Off, in tolerances', '>Of'],
    rows: rows.flatMap(({ id: way, outcome }): CellText[][] => {
      if (outcome === null) return []
      const { longestNeck: longest, worstNeck: worst } = outcome
      const first: CellText[] = [
        capital(way),
        longest === null
          ? ABSENT
          : {
              text: length(longest.length),
              note: `${longest.net}, ${longest.ball} on ${layerName(longest.layer)}`,
            },
      ]
      if (worst === null) return [[...first, ABSENT, ABSENT, ABSENT, ABSENT]]
      const gap = worst.gap === null ? '' : `, gap ${length(worst.gap)}`
      return [
        [
          ...first,
          {
            text: `${ohmsWithBand(worst.impedance, worst.band)} ${worst.kind}`,
            note: `${worst.method}, ${worst.between}`,
          },
          `${formatOhms(worst.target)} ± ${formatPercent(worst.tolerance, 0)}`,
          `${worst.tolerances > 0 ? '+' : ''}${formatNumber(worst.tolerances, 2)}`,
          {
            text: `${worst.netClass} on ${layerName(worst.layer)}`,
            note: `${length(worst.width)} wide${gap}; e.g. ${worst.net}, ball ${worst.ball}`,
          },
        ],
      ]
    }),
    notes: [
      '+1 and −1 are the ends of the tolerance of the class. The band is the error of the method alone.',
    ],
  })
}

function changesTable(rows: readonly TechnologyRow[], id: string): Table {
  const described = rows.find((row) => row.id === 'as described')?.outcome?.whyNot ?? null
  return table({
    id: `changes-${id}`,
    caption: 'What each way changes, and why nets stay inside',
    columns: ['Way', '>What differs from the description', '>What is to be said of it'],
    rows: rows.map(({ id: way, change, state, outcome }) => [
      capital(way),
      state === 'differs' || way === 'as described' ? capital(change) : `${capital(state)}: ${change}`,
      state === 'as described' && way !== state
        ? 'The figures are those of the description.'
        : { text: remark(outcome, way === 'as described' ? null : described), notes: outcome?.notes ?? [] },
    ]),
  })
}

/** A reason that was given for the description already is not said again. */
function remark(outcome: Outcome | null, saidAlready: string | null): string {
  if (outcome === null) return ABSENT
  const fault =
    outcome.faults === 0
      ? ''
      : `Fault of the program: the plan broke clearance rules in ${count(outcome.faults, 'place')}, and the nets concerned were taken out. `
  if (outcome.whyNot === null) return `${fault}Every net is out.`
  const reason =
    outcome.whyNot === saidAlready ? 'for the same reason as described' : `e.g. ${outcome.whyNot}`
  return `${fault}${count(outcome.unescaped, 'net')} inside, ${reason}.`
}

function assumedTables(rows: readonly TechnologyRow[], id: string): Table[] {
  const assumed = [...new Map(rows.flatMap((row) => row.assumed.map((each) => [each.path, each]))).values()]
  if (assumed.length === 0) return []
  return [
    table({
      id: `invented-${id}`,
      caption: 'Vias that were invented for it',
      columns: ['Via', 'Figures', 'Source'],
      rows: assumed.map(({ quantity, value, source }) => [
        { text: capital(quantity), mark: 'assumed' },
        value,
        source,
      ]),
    }),
  ]
}
