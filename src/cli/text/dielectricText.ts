import type { Board } from '../../board/board.ts'
import type { ThicknessChoice } from '../../dielectric/thicknessChoice.ts'
import { formatLength, formatOhms, formatOhmsWithBand } from '../../units/format.ts'
import type { LengthUnit } from '../../units/quantity.ts'
import { layerName } from './layerName.ts'
import { pairs, paragraph, table } from './table.ts'

/** Points of the curve that a table shows. */
const SHOWN_POINTS = 11

/** Each choice for people: the thickness first, then where it stands now, then the curve. */
export function dielectricText(board: Board, choices: readonly ThicknessChoice[]): string {
  return choices.map((choice) => choiceText(choice, board)).join('\n')
}

function choiceText(choice: ThicknessChoice, board: Board): string {
  const unit = board.displayUnit
  const { netClass, stretch, layer, width, gap, target, window, present, reached } = choice
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
  if (window !== null) {
    rows.push(['inside tolerance', `${formatLength(window.min, unit)} to ${formatLength(window.max, unit)}`])
  }
  return [
    paragraph(
      `${layerName(board, layer)}: ${whose}, ${formatLength(width, unit)} wide${spacing}, target ${formatOhms(target)}`,
    ),
    paragraph(answer(choice, unit), 2, 2),
    pairs(rows),
    curveText(choice, unit),
  ].join('')
}

function answer({ dielectric, thickness, reason }: ThicknessChoice, unit: LengthUnit): string {
  if (thickness === null)
    return `no thickness of ${dielectric} reaches it: ${reason ?? 'the reason is not known'}`
  return `${dielectric}: ${formatLength(thickness, unit)} pressed brings it there`
}

function curveText({ curve }: ThicknessChoice, unit: LengthUnit): string {
  const step = Math.max(1, (curve.length - 1) / (SHOWN_POINTS - 1))
  const shown = Array.from(
    { length: Math.min(SHOWN_POINTS, curve.length) },
    (_, index) => curve[Math.round(index * step)],
  )
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
