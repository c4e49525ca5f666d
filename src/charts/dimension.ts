import { INK, TYPE } from './ink.ts'
import { label, segment, textWidth } from './marks.ts'
import { coordinate, element } from './svg.ts'

export interface DimensionSpec {
  readonly from: number
  readonly to: number
  /** Where the dimension line lies on the other direction. */
  readonly at: number
  readonly text: string
  /** Edges of the room that the text may take. */
  readonly room: readonly [number, number]
  /** Where the thin lines that lead to the measured edges begin; left out for none. */
  readonly edge?: number
  readonly strong?: boolean
  /** Text with room on neither side stands over the middle of the line. */
  readonly centred?: boolean
}

const ARROW = 4

/** Paper round the letters, so that lines behind them do not cross the text. */
export const HALO = {
  stroke: INK.paper,
  'stroke-width': 3,
  'paint-order': 'stroke',
  'stroke-linejoin': 'round',
} as const

function arrow(tip: number, at: number, towards: 1 | -1): string {
  const back = coordinate(tip - towards * ARROW)
  const place = `${coordinate(tip)} ${coordinate(at)}`
  return `M${back} ${coordinate(at - 2.5)}L${place}L${back} ${coordinate(at + 2.5)}`
}

/** Where the text of a level dimension goes: on the line if it fits, else to its right, else to its left. */
function placeText(spec: DimensionSpec): { x: number; anchor: string; inside: boolean } {
  const wide = textWidth(spec.text, TYPE.small) + 8
  const low = Math.min(spec.from, spec.to)
  const high = Math.max(spec.from, spec.to)
  if (high - low >= wide + 4 * ARROW) return { x: (low + high) / 2, anchor: 'middle', inside: true }
  if (high + ARROW + wide + 6 <= spec.room[1]) return { x: high + ARROW + 6, anchor: 'start', inside: false }
  if (low - ARROW - 6 - wide >= spec.room[0]) return { x: low - ARROW - 6, anchor: 'end', inside: false }
  // Neither side has room: over the line, or as far right as the room goes, over whatever is there.
  if (spec.centred === true) {
    const middle = Math.max(Math.min((low + high) / 2, spec.room[1] - wide / 2), spec.room[0] + wide / 2)
    return { x: middle, anchor: 'middle', inside: true }
  }
  return { x: Math.max(spec.room[1] - wide, spec.room[0]), anchor: 'start', inside: true }
}

/**
 * A level dimension: a line between two edges with arrows and its text. Where the distance is too short for
 * arrows inside, they point at it from outside.
 */
export function levelDimension(spec: DimensionSpec): string {
  const low = Math.min(spec.from, spec.to)
  const high = Math.max(spec.from, spec.to)
  const roomy = high - low > 4 * ARROW
  const reach = roomy ? 0 : 2 * ARROW
  const arrows = roomy
    ? arrow(low, spec.at, -1) + arrow(high, spec.at, 1)
    : arrow(low, spec.at, 1) + arrow(high, spec.at, -1)
  const text = placeText(spec)
  const ink = spec.strong === true ? INK.accent : INK.quiet
  const leads = spec.edge === undefined ? [] : [low, high].map((x) => lead(x, spec.edge ?? spec.at, spec.at))
  return element(
    'g',
    {},
    ...leads,
    segment({ x: low - reach, y: spec.at }, { x: high + reach, y: spec.at }, { stroke: ink }),
    element('path', { d: arrows, fill: 'none', stroke: ink }),
    label(
      spec.text,
      { x: text.x, y: text.inside ? spec.at - 4 : spec.at + 3.5 },
      {
        'font-size': TYPE.small,
        'text-anchor': text.anchor,
        fill: spec.strong === true ? INK.accent : INK.text,
        ...HALO,
        ...(spec.strong === true ? { 'font-weight': 'bold' } : {}),
      },
    ),
  )
}

function lead(x: number, from: number, to: number): string {
  return segment({ x, y: from }, { x, y: to + 4 }, { stroke: INK.rule, 'stroke-width': 0.5 })
}

/** An upright dimension; its text stands level at its right. */
export function uprightDimension(spec: Omit<DimensionSpec, 'room'>): string {
  const low = Math.min(spec.from, spec.to)
  const high = Math.max(spec.from, spec.to)
  const roomy = high - low > 4 * ARROW
  const reach = roomy ? 0 : 2 * ARROW
  const turn = element('path', {
    d: roomy ? arrow(low, 0, -1) + arrow(high, 0, 1) : arrow(low, 0, 1) + arrow(high, 0, -1),
    // Drawn level and turned: x runs down after the turn.
    transform: `translate(${coordinate(spec.at)} 0) rotate(90)`,
    fill: 'none',
    stroke: INK.quiet,
  })
  return element(
    'g',
    {},
    segment({ x: spec.at, y: low - reach }, { x: spec.at, y: high + reach }, { stroke: INK.quiet }),
    turn,
    label(spec.text, { x: spec.at + 8, y: (low + high) / 2 + 3.5 }, { 'font-size': TYPE.small }),
  )
}
