import { INK, TYPE } from '../../charts/ink.ts'
import { frame } from '../../charts/frame.ts'
import { legend } from '../../charts/legend.ts'
import type { LegendEntry } from '../../charts/legend.ts'
import { circle, group, label, segment } from '../../charts/marks.ts'
import type { Place } from '../../charts/marks.ts'
import { pattern, patternFill } from '../../charts/patterns.ts'
import { scaleBar } from '../../charts/scaleBar.ts'
import { formatLength } from '../../units/format.ts'
import type { LengthUnit, Metres } from '../../units/quantity.ts'
import type { Ball, Package } from '../../board/packages.ts'
import { gridNames } from './gridNames.ts'

export interface PackageGridSpec {
  readonly id: string
  readonly package: Package
  /** Exit layer of each ball that leaves, by ball name. */
  readonly exitLayers: ReadonlyMap<string, number>
  /** Signal balls that find no way out. */
  readonly unescaped: ReadonlySet<string>
  readonly layerName: (layer: number) => string
  readonly unit: LengthUnit
}

/** Fills of the exit layers, light enough for dark figures; the number in the ball says the same. */
const LAYER_FILLS = ['#ffffff', '#d3e6ee', '#efdcc8', '#e3e3e3', '#cfe8d5', '#eadcf0']

type Kind = 'leaves' | 'does not leave' | 'no exit' | 'power' | 'ground' | 'unused'

function kindOf(ball: Ball, spec: PackageGridSpec): Kind {
  if (ball.use !== 'signal') return ball.use
  if (spec.exitLayers.has(ball.name)) return 'leaves'
  return spec.unescaped.has(ball.name) ? 'no exit' : 'does not leave'
}

/** The balls of a package seen from the top of the board: what each is for, and on which layer its net leaves. */
export function packageGrid(spec: PackageGridSpec): string {
  const { id, package: pack } = spec
  const view = viewOf(pack)
  const layers = [...new Set(spec.exitLayers.values())].sort((a, b) => a - b)
  const kinds = new Map(pack.balls.map((ball) => [ball, kindOf(ball, spec)]))
  const of = (kind: Kind): Ball[] => pack.balls.filter((ball) => kinds.get(ball) === kind)
  const radius = view.cell * 0.4
  const dots = (balls: readonly Ball[], r = radius): string[] =>
    balls.map((ball) => circle(view.place(ball), r))
  const marks = [
    group(
      { stroke: INK.rule },
      missingPlaces(pack).map((at) => tick(view.place(at))),
    ),
    group({ fill: INK.paper, stroke: INK.rule, 'stroke-dasharray': '2 1.5' }, dots(of('unused'))),
    group({ fill: INK.quiet, stroke: INK.quiet }, dots(of('ground'))),
    group({ fill: patternFill({ figure: id, kind: 'vertical' }), stroke: INK.quiet }, dots(of('power'))),
    group({ fill: patternFill({ figure: id, kind: 'dots' }), stroke: INK.rule }, dots(of('does not leave'))),
    ...layers.map((layer, index) => leavingBalls(spec, layer, index, view)),
    group({ fill: INK.paper, stroke: INK.warn, 'stroke-width': 1.8 }, dots(of('no exit'))),
    group(
      { stroke: INK.warn, 'stroke-width': 1.4 },
      of('no exit').map((ball) => cross(view.place(ball), radius * 0.55)),
    ),
  ]
  const entries = legendEntries(spec, kinds, layers)
  const key = legend(entries, { x: 8, y: view.bottom + 34, width: view.width - 16 })
  const bar = barLength(pack)
  return frame({
    id,
    title: `Ball grid of ${pack.name}, seen from the top of the board`,
    description: `${pack.rows} rows by ${pack.columns} columns. ${entries.map((entry) => entry.text).join('; ')}. Places to scale; circles mark balls and are larger than lands.`,
    width: view.width,
    height: view.bottom + 34 + key.height + 8,
    definitions: [
      pattern({ figure: id, kind: 'vertical', ink: INK.text }),
      pattern({ figure: id, kind: 'dots', ink: INK.text }),
    ],
    body: [
      ...gridNames(pack, { left: MARGIN.left / 2, top: MARGIN.top - 8, cell: view.cell, place: view.place }),
      ...marks,
      scaleBar({ x: 10, y: view.bottom + 16, length: bar * view.scale, text: formatLength(bar, spec.unit) }),
      key.drawing,
    ],
  })
}

interface View {
  readonly scale: number
  readonly cell: number
  readonly width: number
  readonly bottom: number
  readonly place: (at: { readonly x: Metres; readonly y: Metres }) => Place
}

const MARGIN = { left: 34, top: 28 }

function viewOf(pack: Package): View {
  const xs = pack.balls.map((ball) => ball.x)
  const ys = pack.balls.map((ball) => ball.y)
  const halfWidth = Math.max(((pack.columns - 1) * pack.pitch.x) / 2, ...xs.map(Math.abs))
  const halfHeight = Math.max(((pack.rows - 1) * pack.pitch.y) / 2, ...ys.map(Math.abs))
  const pitch = Math.min(pack.pitch.x, pack.pitch.y)
  const across = (2 * halfWidth) / pitch + 1
  const cell = Math.min(Math.max(640 / across, 13), 21)
  const scale = cell / pitch
  const left = MARGIN.left + cell / 2
  const top = MARGIN.top + cell / 2
  return {
    scale,
    cell,
    width: Math.max(2 * halfWidth * scale + cell + MARGIN.left + 10, 380),
    bottom: top + 2 * halfHeight * scale + cell / 2,
    place: ({ x, y }) => ({ x: left + (x + halfWidth) * scale, y: top + (halfHeight - y) * scale }),
  }
}

function leavingBalls(spec: PackageGridSpec, layer: number, index: number, view: View): string {
  const balls = spec.package.balls.filter(
    (ball) => ball.use === 'signal' && spec.exitLayers.get(ball.name) === layer,
  )
  const fill = LAYER_FILLS[index % LAYER_FILLS.length] ?? INK.paper
  const size = Math.min(view.cell * 0.52, TYPE.small)
  const places = balls.map((ball) => view.place(ball))
  return (
    group(
      { fill, stroke: INK.text },
      places.map((at) => circle(at, view.cell * 0.4)),
    ) +
    group(
      { 'font-size': size, 'text-anchor': 'middle' },
      places.map((at) => label(String(layer), { x: at.x, y: at.y + size * 0.36 })),
    )
  )
}

/** Places of the grid that hold no ball; none for packages whose balls were given by coordinates. */
function missingPlaces(pack: Package): Place[] {
  if (!pack.onGrid) return []
  const taken = new Set(pack.balls.map((ball) => ball.row * pack.columns + ball.column))
  return Array.from({ length: pack.rows * pack.columns }, (_, index) => index)
    .filter((index) => !taken.has(index))
    .map((index) => ({
      x: ((index % pack.columns) - (pack.columns - 1) / 2) * pack.pitch.x,
      y: ((pack.rows - 1) / 2 - Math.floor(index / pack.columns)) * pack.pitch.y,
    }))
}

function tick({ x, y }: Place): string {
  return segment({ x: x - 2, y }, { x: x + 2, y }, { stroke: INK.rule })
}

function cross({ x, y }: Place, reach: number): string {
  return (
    segment({ x: x - reach, y: y - reach }, { x: x + reach, y: y + reach }, { stroke: INK.warn }) +
    segment({ x: x - reach, y: y + reach }, { x: x + reach, y: y - reach }, { stroke: INK.warn })
  )
}

/** One, two or five pitches, so that the bar stays short of the drawing. */
function barLength(pack: Package): Metres {
  return pack.pitch.x * (pack.columns > 12 ? 5 : 2)
}

function legendEntries(
  spec: PackageGridSpec,
  kinds: ReadonlyMap<Ball, Kind>,
  layers: readonly number[],
): LegendEntry[] {
  const counts = new Map<Kind, number>()
  for (const kind of kinds.values()) counts.set(kind, (counts.get(kind) ?? 0) + 1)
  const swatch = { x: 8, y: 6 }
  const outlined = { stroke: INK.quiet }
  const fixed: readonly [Kind, string, string][] = [
    [
      'no exit',
      'signal, no way out',
      circle(swatch, 5.5, { fill: INK.paper, stroke: INK.warn, 'stroke-width': 1.8 }) + cross(swatch, 3),
    ],
    [
      'does not leave',
      'signal outside the plan',
      circle(swatch, 5.5, { ...outlined, fill: patternFill({ figure: spec.id, kind: 'dots' }) }),
    ],
    ['ground', 'ground', circle(swatch, 5.5, { fill: INK.quiet })],
    [
      'power',
      'power',
      circle(swatch, 5.5, { ...outlined, fill: patternFill({ figure: spec.id, kind: 'vertical' }) }),
    ],
    [
      'unused',
      'unused',
      circle(swatch, 5.5, { fill: INK.paper, stroke: INK.rule, 'stroke-dasharray': '2 1.5' }),
    ],
  ]
  const missing = missingPlaces(spec.package).length
  return [
    ...layers.map((layer, index) => ({
      text: `leaves on ${spec.layerName(layer)} (${[...spec.exitLayers.values()].filter((each) => each === layer).length})`,
      mark:
        circle(swatch, 5.5, {
          fill: LAYER_FILLS[index % LAYER_FILLS.length] ?? INK.paper,
          stroke: INK.text,
        }) + label(String(layer), { x: 8, y: 9 }, { 'font-size': 8, 'text-anchor': 'middle' }),
    })),
    ...fixed.flatMap(([kind, text, mark]) => {
      const count = counts.get(kind) ?? 0
      return count === 0 ? [] : [{ text: `${text} (${count})`, mark }]
    }),
    ...(missing === 0 ? [] : [{ text: `no ball (${missing})`, mark: tick(swatch) }]),
  ]
}
