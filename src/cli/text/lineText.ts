import type { Board } from '../../board/board.ts'
import type { Estimate, LineImpedance } from '../../impedance/estimate.ts'
import {
  formatCapacitancePerLength,
  formatDelayPerLength,
  formatFrequency,
  formatInductancePerLength,
  formatLength,
  formatLoss,
  formatNumber,
  formatOhms,
  formatOhmsWithBand,
  formatPercent,
  formatSignedPercent,
} from '../../units/format.ts'
import type { LengthUnit } from '../../units/quantity.ts'
import type { ProcessSpread } from '../../tolerance/processSpread.ts'
import { assumptionsText } from './assumptionsText.ts'
import { spreadText } from './spreadText.ts'
import { pairs, table } from './table.ts'

/** One line for people: the answer, what it was computed for, what the process does to it, and every method that applies. */
export function lineText(board: Board, line: LineImpedance, process: ProcessSpread | null): string {
  const unit = board.displayUnit
  const { chosen, section } = line
  return [
    answer(line),
    pairs([
      ['method', chosen.method.title],
      ['source', chosen.method.source],
      ['error band', `± ${formatPercent(chosen.claimedError)}: ${chosen.errorBasis}`],
      ['outside limits', violationsText(chosen)],
      ...comparison(line),
    ]),
    '\n',
    sectionText(line, unit),
    '\n',
    propagationText(line, unit),
    '\nWhat the process does to the impedance:\n',
    spreadText(process),
    '\nEvery method that applies, the chosen one first:\n',
    methodsText([chosen, ...line.others]),
    assumptionsText(section.assumed),
  ].join('')
}

function answer(line: LineImpedance): string {
  const value = formatOhmsWithBand(line.impedance, line.chosen.claimedError)
  if (line.common === null) return `Impedance ${value}\n`
  return `Differential impedance ${value}, common-mode impedance ${formatOhms(line.common)}\n`
}

function sectionText({ section }: LineImpedance, unit: LengthUnit): string {
  const { trace, gap, coplanarGap, planeBelow, planeAbove, broadside } = section
  const planes = [planeAbove, planeBelow].filter((plane) => plane !== null)
  const rows: [string, string][] = [
    [
      'layer',
      `${section.layerName} (copper layer ${section.layer}): ${section.arrangement}, ${section.structure}`,
    ],
    ['reference', planes.map((plane) => `plane ${plane.layerName} (${plane.net ?? 'no net'})`).join(' and ')],
    [
      'trace width',
      `${formatLength(trace.width, unit)} at the foot, ${formatLength(trace.topWidth, unit)} at the top`,
    ],
    ['copper', formatLength(trace.thickness, unit)],
  ]
  if (gap !== null) rows.push(['gap inside pair', formatLength(gap, unit)])
  if (broadside !== null) rows.push(['other trace', `on copper layer ${broadside.layer}`])
  if (coplanarGap !== null) rows.push(['gap to ground beside', formatLength(coplanarGap, unit)])
  rows.push(['dielectric below', sheetsText(section.below, unit)])
  if (section.above.length > 0) rows.push(['dielectric above', sheetsText(section.above, unit)])
  if (broadside !== null) rows.push(['dielectric between', sheetsText(broadside.sheets, unit)])
  if (section.mask !== null) rows.push(['mask over trace', formatLength(section.mask.overTrace, unit)])
  if (section.emptyLayers.length > 0) rows.push(['taken as empty', section.emptyLayers.join(', ')])
  if (section.upsideDown) rows.push(['seen', 'upside down: below is towards the top of the board'])
  return pairs(rows)
}

function sheetsText(sheets: LineImpedance['section']['below'], unit: LengthUnit): string {
  return sheets
    .map(({ name, thickness, permittivity }) => {
      const { relative, lossTangent, frequency } = permittivity
      const at = formatFrequency(frequency)
      return `${name} ${formatLength(thickness, unit)}, permittivity ${formatNumber(relative)}, loss tangent ${formatNumber(lossTangent, 2)} at ${at}`
    })
    .join('; ')
}

function propagationText(line: LineImpedance, unit: LengthUnit): string {
  const { loss } = line
  return pairs([
    [
      'effective permittivity',
      `${formatNumber(line.effectivePermittivity)} at ${formatFrequency(line.frequency)}`,
    ],
    ['delay', formatDelayPerLength(line.delay, unit)],
    ['capacitance', formatCapacitancePerLength(line.capacitance)],
    ['inductance', formatInductancePerLength(line.inductance)],
    [
      'conductor loss',
      `${formatLoss(loss.conductor, unit)} at ${formatFrequency(loss.frequency)}, roughness factor ${formatNumber(loss.roughnessFactor)}`,
    ],
    ['dielectric loss', formatLoss(loss.dielectric, unit)],
    ['loss by', loss.method],
  ])
}

/** The best method of the other kind beside the chosen one. */
function comparison({ chosen, others, closedFormDifference }: LineImpedance): [string, string][] {
  const other = others.find(({ method }) => method.kind !== chosen.method.kind)
  if (other === undefined || closedFormDifference === null) return []
  const ohms = formatOhmsWithBand(verdictOhms(other), other.claimedError)
  const difference = formatSignedPercent(closedFormDifference)
  return [
    [other.method.kind, `${ohms} by ${other.method.title}`],
    ['difference', `closed form ${difference} against the field solution`],
  ]
}

function methodsText(estimates: readonly Estimate[]): string {
  const pair = estimates.some(({ modes }) => modes.kind === 'pair')
  const columns = [
    { title: 'method', kind: 'word' },
    { title: pair ? 'differential' : 'impedance', kind: 'number' },
    ...(pair
      ? ([
          { title: 'odd', kind: 'number' },
          { title: 'even', kind: 'number' },
        ] as const)
      : []),
    { title: 'band', kind: 'number' },
    { title: 'outside limits', kind: 'word' },
  ] as const
  return table(
    columns,
    estimates.map((estimate) => [
      estimate.method.title,
      ...impedances(estimate),
      `± ${formatPercent(estimate.claimedError)}`,
      violationsText(estimate),
    ]),
  )
}

/** Line impedance, or differential: twice the odd mode. */
function verdictOhms({ modes }: Estimate): number {
  return modes.kind === 'single' ? modes.line.impedance : 2 * modes.odd.impedance
}

function impedances({ modes }: Estimate): string[] {
  if (modes.kind === 'single') return [formatOhms(modes.line.impedance)]
  const { odd, even } = modes
  return [formatOhms(2 * odd.impedance), formatOhms(odd.impedance), formatOhms(even.impedance)]
}

function violationsText({ violations }: Estimate): string {
  if (violations.length === 0) return 'none'
  return violations
    .map(
      ({ quantity, value, min, max }) =>
        `${quantity} ${formatNumber(value)}, valid ${formatNumber(min)} to ${formatNumber(max)}`,
    )
    .join('; ')
}
