import { formatFrequency, formatNumber, formatPercent } from '../../../units/format.ts'
import type { OuterInner } from '../../../board/fabrication.ts'
import type { NetClass } from '../../../board/nets.ts'
import type { ViaType } from '../../../board/vias.ts'
import type { Assumption } from '../../../units/assumption.ts'
import type { ReportContext } from '../context.ts'
import { section } from '../section.ts'
import type { Section } from '../section.ts'
import { groupBy, table } from '../table.ts'
import type { CellText, Table } from '../table.ts'
import { ABSENT, count, someOf, target } from '../words.ts'

/** What was put in, where it came from, and everything that was filled in for what was left out. */
export function inputsSection(context: ReportContext): Section {
  const { assumptions } = context.review.board
  return section({
    id: 'inputs',
    title: 'Inputs and their origin',
    paragraphs: [
      assumptions.length === 0
        ? 'Every value was stated in the description; nothing is assumed. The stackup and the packages stand in their own sections above.'
        : `${count(assumptions.length, 'value')} ${assumptions.length === 1 ? 'was' : 'were'} left out of the description and filled in, each listed below with its source. The stackup and the packages stand in their own sections above.`,
    ],
    tables: [
      assumptionTable(assumptions),
      classTable(context),
      viaTable(context),
      fabricationTable(context),
      analysisTable(context),
    ],
  })
}

/** The same value from the same source, for one part after another, shares a row. */
function assumptionTable(assumptions: readonly Assumption[]): Table {
  const keyOf = ({ path }: Assumption): string => path.replace(/.*\./, '')
  const rows = groupBy(assumptions, (each) => JSON.stringify([keyOf(each), each.value, each.source]))
  return table({
    id: 'assumptions-table',
    caption: 'Assumed values',
    plainHeads: true,
    columns: ['>What', '>Value used', '>Source', 'Where it would stand'],
    rows: rows.map((group) => {
      const [first, ...rest] = group
      const others = [...new Set(rest.map((each) => each.quantity))].filter((each) => each !== first.quantity)
      return [
        { text: first.quantity, note: others.length === 0 ? null : `and ${someOf(others, 3)}` },
        first.value,
        first.source,
        {
          text: first.path.replaceAll('.', '.\u200b'),
          note: rest.length === 0 ? null : `and ${count(rest.length, 'further place')}`,
        },
      ]
    }),
    whenEmpty: 'Nothing is assumed.',
  })
}

function classTable(context: ReportContext): Table {
  const { board } = context.review
  const members = new Map<string, number>()
  for (const net of board.nets) members.set(net.class, (members.get(net.class) ?? 0) + 1)
  return table({
    id: 'classes-table',
    caption: 'Net classes',
    columns: [
      'Class',
      '#Nets',
      'Target',
      'Edge',
      'Data rate',
      'Neck',
      'Main route',
      'Source and load',
      'Limits',
    ],
    rows: board.classes.map((each) => classRow(each, members.get(each.name) ?? 0, context)),
    whenEmpty: 'No classes are described.',
  })
}

function classRow(netClass: NetClass, nets: number, { length }: ReportContext): CellText[] {
  const size = (metres: number | null, otherwise: string): string =>
    metres === null ? otherwise : length(metres)
  const { neck, main } = netClass
  const gapOf = (gap: number | null): string | null => (gap === null ? null : `gap ${length(gap)}`)
  return [
    {
      text: netClass.name,
      note: netClass.interface,
      mark: netClass.assumed.length > 0 ? 'partly assumed' : null,
    },
    String(nets),
    { text: target(netClass.target, netClass.tolerance), note: netClass.structure },
    netClass.edge.basis,
    netClass.dataRate === null
      ? ABSENT
      : {
          text: `Nyquist ${formatFrequency(netClass.dataRate.nyquist)}`,
          note: `${netClass.dataRate.levels} levels`,
        },
    { text: size(neck.width, 'widest that fits'), note: gapOf(neck.gap) },
    { text: size(main.width, 'solved for the target'), note: gapOf(main.gap) },
    `${formatNumber(netClass.sourceImpedance)} and ${formatNumber(netClass.loadImpedance)} ohm`,
    limitsText(netClass, length),
  ]
}

function limitsText(
  { neckAllowance, reflectionLimit }: NetClass,
  length: (metres: number) => string,
): string {
  const parts = [
    reflectionLimit === null ? 'reflection as the board' : `reflection ${formatPercent(reflectionLimit)}`,
    neckAllowance === null
      ? 'no published neck allowance'
      : `neck ${length(neckAllowance.length)} (${neckAllowance.source})`,
  ]
  return parts.join('; ')
}

function viaTable(context: ReportContext): Table {
  return table({
    id: 'vias-table',
    caption: 'Vias',
    columns: [
      'Via',
      'Layers',
      '#Drilled',
      '#Finished',
      '#Pad, outer and inner',
      '#Antipad',
      'Unused inner pads',
      'Backdrill',
      'Finish',
    ],
    rows: context.review.board.vias.map((via) => viaRow(via, context)),
    whenEmpty: 'No vias are described.',
    notes: [
      'Drilled holes are before plating, finished holes after it; the one that was not stated follows from the plating.',
    ],
  })
}

function viaRow(via: ViaType, { length, layerName }: ReportContext): CellText[] {
  const finish = [
    ...(via.inPad ? ['in the pad'] : []),
    ...(via.filled ? ['filled'] : []),
    ...(via.capped ? ['capped'] : []),
  ]
  const inner = via.padDiameters[1]
  return [
    { text: via.name, note: via.kind, mark: via.assumed.length > 0 ? 'partly assumed' : null },
    `${layerName(via.firstLayer)} to ${layerName(via.lastLayer)}`,
    { text: length(via.drilledDiameter), note: via.stated === 'finished' ? 'from finished' : null },
    { text: length(via.finishedDiameter), note: via.stated === 'drilled' ? 'from drilled' : null },
    `${length(via.padDiameters[0] ?? 0)}${inner === undefined ? '' : `, ${length(inner)}`}`,
    length(via.antipadDiameter),
    via.unconnectedInnerPads,
    via.backdrill === null
      ? 'none'
      : {
          text: `${length(via.backdrill.diameter)} from the ${via.backdrill.from}`,
          note: `stub left ${length(via.backdrill.residualStub)}`,
        },
    finish.length === 0 ? ABSENT : finish.join(', '),
  ]
}

function fabricationTable({ review, length }: ReportContext): Table {
  const { fabrication: made } = review.board
  const both = ({ outer, inner }: OuterInner): string =>
    outer === inner ? length(outer) : `${length(outer)} outer, ${length(inner)} inner`
  const assumed = (key: string): string | null =>
    made.assumed.some((each) => each.path.includes(key)) ? 'assumed' : null
  const row = (name: string, text: string, key: string): CellText[] => [name, { text, mark: assumed(key) }]
  return table({
    id: 'fabrication-table',
    caption: `Fabrication capability, class “${made.className}”`,
    columns: ['Capability', '#Value'],
    rows: [
      row('Narrowest trace', both(made.traceWidth), 'trace_width'),
      row('Smallest gap', both(made.traceGap), 'trace_gap'),
      row('Trace to land or pad', both(made.traceToPad), 'trace_to_pad'),
      row('Mask opening to trace', length(made.maskOpeningToTrace), 'mask_opening_to_trace'),
      row('Drilled hole to copper', length(made.drillToCopper), 'drill_to_copper'),
      row('Hole wall to hole wall', length(made.holeWallToHoleWall), 'hole_to_hole'),
      row('Layer-to-layer registration', `± ${length(made.registration)}`, 'registration'),
      row(
        'Width tolerance',
        `± ${formatPercent(made.widthTolerance, 0)}, at least ${length(made.widthToleranceFloor)}`,
        'width_tolerance',
      ),
      row('Impedance tolerance', `± ${formatPercent(made.impedanceTolerance, 0)}`, 'impedance_tolerance'),
      row('Drawn width less finished width', length(made.drawnWidthExcess), 'drawn_width_excess'),
      row(
        'Annular ring',
        `external ${length(made.annularRing.external)}, internal ${length(made.annularRing.internal)}, class ${made.annularRing.ipcClass}`,
        'annular_ring',
      ),
    ],
    notes: [`Source: ${made.source}, ${made.date}. Annular ring: ${made.annularRing.source}.`],
  })
}

function analysisTable({ review, length }: ReportContext): Table {
  const { analysis } = review.board
  const assumed = (key: string): string | null =>
    analysis.assumed.some((each) => each.path.includes(key)) ? 'assumed' : null
  return table({
    id: 'analysis-table',
    caption: 'What the verdicts use',
    columns: ['Setting', '#Value'],
    rows: [
      ['Permittivity taken at', { text: formatFrequency(analysis.frequency), mark: assumed('frequency') }],
      [
        'Lengths count as equal within',
        { text: length(analysis.comparisonTolerance), mark: assumed('comparison_tolerance') },
      ],
      [
        'Largest reflection of a neck, unless its class says',
        { text: formatPercent(analysis.reflectionLimit), mark: assumed('reflection_limit') },
      ],
      [
        'Longest neck, as a share of the edge in space',
        { text: formatPercent(analysis.electricalLengthLimit), mark: assumed('electrical_length_limit') },
      ],
      [
        'Largest near-end noise from traces beside a neck, of their swing',
        { text: formatPercent(analysis.crosstalkLimit), mark: assumed('crosstalk_limit') },
      ],
    ],
  })
}
