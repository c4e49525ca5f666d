import type { ReportContext } from '../context.ts'
import { section } from '../section.ts'
import type { Section } from '../section.ts'
import { table } from '../table.ts'
import { count } from '../words.ts'

/** Every source that a figure of this report rests on, and what for. */
export function sourcesSection(context: ReportContext): Section {
  const uses = new Map<string, Set<string>>()
  for (const [source, use] of allSources(context)) {
    const text = source.trim()
    if (!isSource(text)) continue
    uses.set(text, (uses.get(text) ?? new Set()).add(use))
  }
  const unsourced = context.review.board.assumptions.filter(({ source }) => source.includes(NO_SOURCE)).length
  const sorted = [...uses].sort(([a], [b]) => (a.toLowerCase() < b.toLowerCase() ? -1 : 1))
  return section({
    id: 'sources',
    title: 'Sources',
    tables: [
      table({
        id: 'sources-table',
        caption: 'Sources, and what they are used for',
        plainHeads: true,
        columns: ['Source', 'Used for'],
        rows: sorted.map(([source, what]) => [source, [...what].join('; ')]),
        whenEmpty: 'No source is used.',
        notes:
          unsourced === 0
            ? []
            : [`${count(unsourced, 'assumed value')} follow common practice, for which no source is known.`],
      }),
    ],
  })
}

const NO_SOURCE = 'no source'

const COUPLING_SOURCE =
  'A. Feller, H. R. Kaupp, J. J. Digiacomo, "Crosstalk and reflections in high-speed digital systems", AFIPS Fall Joint Computer Conference, 1965 (from memory)'

/** Limits that the description sets itself, and values of common practice, have nobody to be cited. */
function isSource(text: string): boolean {
  const own = /^(limit of|target and tolerance|class |analysis settings|plan with|stated |$)/
  return !own.test(text) && !text.includes(NO_SOURCE)
}

function allSources({ review }: ReportContext): (readonly [string, string])[] {
  const { board, escapes, lines, signals, couplings, findings } = review
  const { fabrication } = board
  const estimates = lines.entries.flatMap((entry) =>
    entry.impedance === null ? [] : [entry.impedance.chosen, ...entry.impedance.others],
  )
  const ends = signals.flatMap((signal) => signal.ends)
  return [
    [`${fabrication.source}, ${fabrication.date}`, 'fabrication capability'],
    [fabrication.annularRing.source, 'annular rings'],
    ...escapes.flatMap((escape) => [
      ...escape.rules.map((rule) => [rule.source, 'layer count'] as const),
      ...escape.claims.map((claim) => [claim.source, 'claimed layer count'] as const),
    ]),
    ...estimates.map((estimate) => [estimate.method.source, 'impedance'] as const),
    ...board.classes.flatMap((each) =>
      each.neckAllowance === null
        ? []
        : [[each.neckAllowance.source, `neck allowance of ${each.name}`] as const],
    ),
    ...ends.flatMap((end) => [
      [end.electricalLength.limitSource, 'limit on electrical length'] as const,
      [end.reflection.limitSource, 'limit on reflection'] as const,
      ...(end.stub === null ? [] : [[end.stub.limitSource, 'limit on via stubs'] as const]),
    ]),
    ...couplings.map(({ limitSource }) => [limitSource, 'limit on noise of traces beside necks'] as const),
    ...(couplings.length === 0 ? [] : [[COUPLING_SOURCE, 'noise of traces beside necks'] as const]),
    ...findings.map((finding) => [finding.limitSource, 'limits of findings'] as const),
    ...board.assumptions.map((each) => [each.source, 'assumed values'] as const),
  ]
}
