import type { Board } from '../../board/board.ts'
import type { ThicknessChoice } from '../../dielectric/thicknessChoice.ts'
import { formatLength, formatOhms, formatOhmsWithBand, formatPercent } from '../../units/format.ts'
import type { LengthUnit } from '../../units/quantity.ts'
import { layerName } from './layerName.ts'
import { pairs, paragraph, table, type Column } from './table.ts'

const COLUMNS: readonly Column[] = [
  { title: 'layer', kind: 'word' },
  { title: 'stretch', kind: 'word' },
  { title: 'width', kind: 'number' },
  { title: 'gap', kind: 'number' },
  { title: 'dielectric', kind: 'word' },
  { title: 'now', kind: 'number' },
  { title: 'it has', kind: 'number' },
  { title: 'wanted', kind: 'number' },
  { title: 'from', kind: 'number' },
  { title: 'to', kind: 'number' },
]

/** Points of the curve that a table shows. */
const SHOWN_POINTS = 11

/** The choice for people, with its curve; or a line each for the choices of a class. */
export function dielectricText(board: Board, choices: readonly ThicknessChoice[]): string {
  const [only, ...others] = choices
  if (only === undefined) return ''
  return others.length === 0 ? choiceText(only, board) : choicesText(choices, only, board)
}

function choicesText(choices: readonly ThicknessChoice[], first: ThicknessChoice, board: Board): string {
  const unit = board.displayUnit
  const rows = choices.map((choice) => [
    layerName(board, choice.layer),
    choice.stretch,
    formatLength(choice.width, unit),
    choice.gap === null ? '-' : formatLength(choice.gap, unit),
    choice.dielectric,
    formatLength(choice.present.thickness, unit),
    formatOhms(choice.present.impedance),
    choice.thickness === null ? 'none' : formatLength(choice.thickness, unit),
    choice.window === null ? '-' : formatLength(choice.window.min, unit),
    choice.window === null ? '-' : formatLength(choice.window.max, unit),
  ])
  const methods = [
    ...new Set(
      choices.flatMap(({ reached }) =>
        reached === null ? [] : [`${reached.method}, ± ${formatPercent(reached.band)}`],
      ),
    ),
  ]
  const failed = choices.filter(({ thickness }) => thickness === null)
  return [
    paragraph(
      `Thickness that brings ${first.netClass ?? 'the trace'} to ${formatOhms(first.target)}, each dielectric changed alone; from and to keep it inside its tolerance:`,
    ),
    table(COLUMNS, rows),
    methods.length === 0 ? '' : paragraph(`wanted: by ${methods.join('; ')}`, 2, 2),
    ...failed.map((choice) =>
      paragraph(
        `${layerName(board, choice.layer)}, ${choice.stretch}: ${choice.reason ?? 'the reason is not known'}`,
        2,
        2,
      ),
    ),
  ].join('')
}

function choiceText(choice: ThicknessChoice, board: Board): string {
  const unit = board.displayUnit
  const { netClass, stretch, layer, width, gap, target, present, reached } = choice
  const trace = gap === null ? 'a trace' : 'a pair'
  const spacing = gap === null ? '' : `, gap ${formatLength(gap, unit)}`
  const whose =
    netClass === null ? trace : `${stretch === 'neck' ? 'the neck' : 'the main route'} of ${netClass}`
  const rows: [string, string][] = [
    ['now', `${formatLength(present.thickness, unit)}, ${formatOhms(present.impedance)}`],
  ]
  if (reached !== null) {
    rows.push(['then', `${formatOhmsWithBand(reached.impedance, reached.band)} by ${reached.method}`])
  }
  rows.push(['inside tolerance', windowText(choice, unit)])
  return [
    paragraph(
      `${layerName(board, layer)}: ${whose}, ${formatLength(width, unit)} wide${spacing}, target ${formatOhms(target)}`,
    ),
    paragraph(answer(choice, unit), 2, 2),
    pairs(rows),
    curveText(choice, unit),
  ].join('')
}

function windowText({ window }: ThicknessChoice, unit: LengthUnit): string {
  if (window === null) return 'none'
  return `${formatLength(window.min, unit)} to ${formatLength(window.max, unit)}`
}

function answer({ dielectric, thickness, reason }: ThicknessChoice, unit: LengthUnit): string {
  if (thickness === null)
    return `no thickness of ${dielectric} brings it there: ${reason ?? 'the reason is not known'}`
  return `${dielectric}: ${formatLength(thickness, unit)} pressed brings it there`
}

function curveText({ curve }: ThicknessChoice, unit: LengthUnit): string {
  const count = Math.min(SHOWN_POINTS, curve.length)
  const step = count < 2 ? 0 : (curve.length - 1) / (count - 1)
  const shown = Array.from({ length: count }, (_, index) => curve[Math.round(index * step)])
  return table(
    [
      { title: 'thickness', kind: 'number' },
      { title: 'impedance', kind: 'number' },
    ],
    shown.flatMap((point) =>
      point === undefined
        ? []
        : [[formatLength(point.thickness, unit), formatOhmsWithBand(point.impedance, point.band)]],
    ),
    4,
  )
}
