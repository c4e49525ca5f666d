import { levelDimension } from '../../charts/dimension.ts'
import { frame } from '../../charts/frame.ts'
import { INK } from '../../charts/ink.ts'
import { legend } from '../../charts/legend.ts'
import type { LegendEntry } from '../../charts/legend.ts'
import { box, circle, group } from '../../charts/marks.ts'
import { pattern, patternFill } from '../../charts/patterns.ts'
import { scaleBar } from '../../charts/scaleBar.ts'
import { formatLength } from '../../units/format.ts'
import type { LengthUnit, Metres } from '../../units/quantity.ts'
import type { ChannelFit, ChannelTest } from '../../escape/escape.ts'

export interface ChannelPlanSpec {
  readonly id: string
  readonly fit: ChannelFit
  readonly layerName: string
  readonly unit: LengthUnit
}

const WIDTH = 400
const SIDE = 20
const TOP = 16
const ROW = 21

/** One piece of the way from obstacle to obstacle, in metres from the centre of the left one. */
interface Piece {
  readonly from: Metres
  readonly to: Metres
  readonly text: string
  readonly strong: boolean
}

/**
 * The gap between two neighbouring obstacles with the traces that pass it, drawn to scale and dimensioned: each
 * clearance, width and gap, and what is left over. Where no trace fits, the one that was tried shows how far it
 * misses.
 */
export function channelPlan(spec: ChannelPlanSpec): string {
  const { id, fit } = spec
  const widest = Math.max(...fit.tests.map((test) => test.obstacleDiameter))
  const scale = (WIDTH - 2 * SIDE) / (fit.span + widest)
  const centre = SIDE + (widest / 2) * scale
  const x = (metres: Metres): number => centre + metres * scale
  const height = widest * scale
  const middle = TOP + height / 2
  const traces = traceStarts(fit)
  const pieces = [...chain(fit, spec.unit), ...totals(fit, spec.unit)]
  const floor = TOP + height + 10
  const key = legend(legendEntries(id, fit), {
    x: SIDE,
    y: floor + (pieces.length + 1) * ROW + 22,
    width: WIDTH - 2 * SIDE,
  })
  const bar = fit.width
  const leftover = remainderSpan(fit)
  return frame({
    id,
    title: `Channel ${fit.direction} on ${spec.layerName}: ${fits(fit)}`,
    description: `To scale. ${pieces.map((piece) => piece.text).join('; ')}.`,
    width: WIDTH,
    height: floor + (pieces.length + 1) * ROW + 22 + key.height + 8,
    definitions: [
      pattern({ figure: id, kind: 'diagonal', ink: INK.accent }),
      pattern({ figure: id, kind: 'dots', ink: INK.rule }),
      pattern({ figure: id, kind: 'cross', ink: INK.warn }),
    ],
    body: [
      ...clearanceZones(id, fit, x, height),
      box(
        { x: x(leftover.from), y: TOP, width: (leftover.to - leftover.from) * scale, height },
        { fill: patternFill({ figure: id, kind: fit.traces === 0 ? 'cross' : 'diagonal' }) },
      ),
      ...[0, fit.span].map((at) => obstacle(fit, { x: x(at), y: middle }, scale)),
      group(
        {
          fill: INK.metal,
          stroke: INK.text,
          ...(fit.traces === 0 ? { 'fill-opacity': 0.35, 'stroke-dasharray': '5 3' } : {}),
        },
        traces.map((from) => box({ x: x(from), y: TOP - 8, width: fit.width * scale, height: height + 16 })),
      ),
      // The lowest first, so that its thin lines pass under the texts above.
      ...pieces
        .map((piece, index) =>
          levelDimension({
            from: x(piece.from),
            to: x(piece.to),
            at: floor + (index + 1) * ROW,
            text: piece.text,
            room: [SIDE, WIDTH - SIDE],
            edge: index < pieces.length - 1 ? floor - 8 : middle,
            strong: piece.strong,
          }),
        )
        .reverse(),
      scaleBar({
        x: SIDE,
        y: floor + (pieces.length + 1) * ROW + 4,
        length: bar * scale,
        text: `${formatLength(bar, spec.unit)}, to scale`,
      }),
      key.drawing,
    ],
  })
}

function fits({ traces }: ChannelFit): string {
  if (traces === 0) return 'no trace fits'
  return traces === 1 ? 'one trace fits' : `${traces} traces fit`
}

function edge({ governing }: ChannelFit): Metres {
  return governing.obstacleDiameter / 2
}

/** Left edges of the traces, packed against the left clearance so that the remainder lies in one piece. */
function traceStarts(fit: ChannelFit): Metres[] {
  const start = edge(fit) + fit.governing.clearance
  return Array.from(
    { length: Math.max(fit.traces, 1) },
    (_, index) => start + index * (fit.width + fit.traceGap),
  )
}

function remainderSpan(fit: ChannelFit): { from: Metres; to: Metres } {
  const end = (traceStarts(fit).at(-1) ?? 0) + fit.width
  const limit = fit.span - edge(fit) - fit.governing.clearance
  return { from: Math.min(end, limit), to: Math.max(end, limit) }
}

function chain(fit: ChannelFit, unit: LengthUnit): Piece[] {
  const starts = traceStarts(fit)
  const first = starts[0] ?? 0
  const { from, to } = remainderSpan(fit)
  const one = starts.length === 1
  const gap =
    starts[1] === undefined
      ? []
      : [
          {
            from: first + fit.width,
            to: starts[1],
            text: `gap between traces ${formatLength(fit.traceGap, unit)}`,
            strong: false,
          },
        ]
  return [
    {
      from: edge(fit),
      to: first,
      text: `${clearanceName(fit.governing)} ${formatLength(fit.governing.clearance, unit)}`,
      strong: false,
    },
    {
      from: first,
      to: first + fit.width,
      text: `${one ? 'trace width' : 'width of each trace'} ${formatLength(fit.width, unit)}`,
      strong: false,
    },
    ...gap,
    {
      from,
      to,
      text:
        fit.traces === 0
          ? `too narrow by ${formatLength(Math.abs(fit.remainder), unit)}`
          : `remainder ${formatLength(Math.max(fit.remainder, 0), unit)}`,
      strong: true,
    },
  ]
}

function totals(fit: ChannelFit, unit: LengthUnit): Piece[] {
  const clear = edge(fit) + fit.governing.clearance
  return [
    {
      from: clear,
      to: fit.span - clear,
      text: `clear for traces ${formatLength(Math.max(fit.governing.clear, 0), unit)}`,
      strong: false,
    },
    {
      from: edge(fit),
      to: fit.span - edge(fit),
      text: `edge to edge ${formatLength(fit.span - 2 * edge(fit), unit)}`,
      strong: false,
    },
    { from: 0, to: fit.span, text: `centre to centre ${formatLength(fit.span, unit)}`, strong: false },
  ].filter((piece) => piece.to > piece.from)
}

function clearanceName(test: ChannelTest): string {
  if (test.rule === 'drill to copper') return 'drilled hole to copper'
  return test.rule === 'mask opening to trace' ? 'mask opening to trace' : 'trace to pad'
}

/** Strips that the governing rule keeps free of traces, at each obstacle. */
function clearanceZones(
  id: string,
  fit: ChannelFit,
  x: (metres: Metres) => number,
  height: number,
): string[] {
  const fill = patternFill({ figure: id, kind: 'dots' })
  const from = edge(fit)
  const to = from + fit.governing.clearance
  return [
    box({ x: x(from), y: TOP, width: x(to) - x(from), height }, { fill }),
    box({ x: x(fit.span - to), y: TOP, width: x(to) - x(from), height }, { fill }),
  ]
}

function obstacle(fit: ChannelFit, at: { x: number; y: number }, scale: number): string {
  const of = (rule: ChannelTest['rule']): number | null => {
    const test = fit.tests.find((each) => each.rule === rule)
    return test === undefined ? null : (test.obstacleDiameter / 2) * scale
  }
  const pad = of('trace to pad')
  const mask = of('mask opening to trace')
  const hole = of('drill to copper')
  return [
    ...(pad === null ? [] : [circle(at, pad, { fill: INK.metalTint, stroke: INK.text })]),
    ...(mask === null
      ? []
      : [
          circle(at, mask, {
            fill: 'none',
            stroke: INK.accent,
            'stroke-width': 1.5,
            'stroke-dasharray': '6 4',
          }),
        ]),
    ...(hole === null ? [] : [circle(at, hole, { fill: INK.paper, stroke: INK.text, 'stroke-width': 1.5 })]),
  ].join('')
}

function legendEntries(id: string, fit: ChannelFit): LegendEntry[] {
  const at = { x: 8, y: 6 }
  const has = (rule: ChannelTest['rule']): boolean => fit.tests.some((test) => test.rule === rule)
  return [
    ...(has('trace to pad')
      ? [
          {
            text: fit.obstacle === 'land' ? 'land' : 'via pad',
            mark: circle(at, 5.5, { fill: INK.metalTint, stroke: INK.text }),
          },
        ]
      : []),
    ...(has('mask opening to trace')
      ? [
          {
            text: 'edge of mask opening',
            mark: circle(at, 5.5, { fill: 'none', stroke: INK.accent, 'stroke-dasharray': '3 2' }),
          },
        ]
      : []),
    ...(has('drill to copper')
      ? [
          {
            text: 'hole as drilled',
            mark: circle(at, 4, { fill: INK.paper, stroke: INK.text, 'stroke-width': 1.5 }),
          },
        ]
      : []),
    { text: fit.traces === 0 ? 'trace that was tried' : 'trace', fill: INK.metal },
    { text: 'kept clear by the rule that governs', fill: patternFill({ figure: id, kind: 'dots' }) },
    fit.traces === 0
      ? { text: 'missing room', fill: patternFill({ figure: id, kind: 'cross' }) }
      : { text: 'remainder', fill: patternFill({ figure: id, kind: 'diagonal' }) },
  ]
}
