import { frame } from '../../charts/frame.ts'
import { INK } from '../../charts/ink.ts'
import { legend } from '../../charts/legend.ts'
import type { LegendEntry } from '../../charts/legend.ts'
import { circle, group, polyline, segment } from '../../charts/marks.ts'
import type { Place } from '../../charts/marks.ts'
import { pattern, patternFill } from '../../charts/patterns.ts'
import { scaleBar } from '../../charts/scaleBar.ts'
import { formatLength } from '../../units/format.ts'
import type { LengthUnit, Metres, Point } from '../../units/quantity.ts'
import type { Package } from '../../board/packages.ts'
import { gridNames } from './gridNames.ts'
import type { Route } from '../../routes/route.ts'

/** A round of copper, or a hole, that stands on the layer. */
export interface Obstacle {
  readonly at: Point
  readonly diameter: Metres
}

export interface BreakoutMapSpec {
  readonly id: string
  readonly package: Package
  readonly layerName: string
  /** Routes that leave on this layer. */
  readonly routes: readonly Route[]
  /** Lands or via pads of other nets that the routes pass. */
  readonly obstacles: readonly Obstacle[]
  /** Lands or via pads where the routes begin. */
  readonly starts: readonly Obstacle[]
  /** From each land to the via beside it, on the layer of the lands. */
  readonly dogBones: readonly (readonly [Point, Point])[]
  readonly obstacleName: string
  readonly unit: LengthUnit
}

/** Radius of the dot that marks a trace of a pair: a sign that grey print keeps. */
const PAIR_END = 2.2

const MARGIN = { side: 10, left: 30, top: 26 }

/** One exit layer of a package, to scale, seen from the top of the board: the routes and what they pass between. */
export function breakoutMap(spec: BreakoutMapSpec): string {
  const view = viewOf(spec)
  const { id } = spec
  const round = ({ at, diameter }: Obstacle): string => circle(view.place(at), (diameter / 2) * view.scale)
  const bar = spec.package.pitch.x * (spec.package.columns > 12 ? 5 : 2)
  const entries = legendEntries(spec)
  const key = legend(entries, { x: MARGIN.side, y: view.bottom + 34, width: view.width - 2 * MARGIN.side })
  return frame({
    id,
    title: `Breakout of ${spec.package.name} on ${spec.layerName}, seen from the top of the board`,
    description: `To scale. ${spec.routes.length} nets leave on this layer past ${spec.obstacles.length} obstacles of other nets. ${entries.map((entry) => entry.text).join('; ')}.`,
    width: view.width,
    height: view.bottom + 34 + key.height + 8,
    definitions: [pattern({ figure: id, kind: 'diagonal', ink: INK.rule })],
    body: [
      ...gridNames(spec.package, {
        left: MARGIN.left / 2,
        top: MARGIN.top - 10,
        cell: Math.min(spec.package.pitch.x, spec.package.pitch.y) * view.scale,
        place: view.place,
      }),
      ...dogBoneLines(spec, view),
      group(
        { fill: patternFill({ figure: id, kind: 'diagonal' }), stroke: INK.rule, 'stroke-width': 0.5 },
        spec.obstacles.map(round),
      ),
      ...routeLines(spec, view),
      group({ fill: INK.metal, stroke: INK.text, 'stroke-width': 0.75 }, spec.starts.map(round)),
      scaleBar({
        x: MARGIN.side,
        y: view.bottom + 16,
        length: bar * view.scale,
        text: `${formatLength(bar, spec.unit)}, to scale`,
      }),
      key.drawing,
    ],
  })
}

interface View {
  readonly scale: number
  readonly width: number
  readonly bottom: number
  readonly place: (at: Point) => Place
}

function viewOf({ package: pack, routes, obstacles, starts }: BreakoutMapSpec): View {
  const points = [
    ...routes.flatMap((route) => route.path),
    ...obstacles.map((each) => each.at),
    ...starts.map((each) => each.at),
  ]
  const reach = (of: (point: Point) => number, rows: number, pitch: number): number =>
    points.reduce((most, point) => Math.max(most, Math.abs(of(point))), ((rows - 1) / 2) * pitch) + pitch / 2
  const halfWidth = reach((point) => point.x, pack.columns, pack.pitch.x)
  const halfHeight = reach((point) => point.y, pack.rows, pack.pitch.y)
  const pitch = Math.min(pack.pitch.x, pack.pitch.y)
  const scale = Math.min(Math.max(620 / (2 * halfWidth), 14 / pitch), 17 / pitch)
  return {
    scale,
    width: Math.max(2 * halfWidth * scale + MARGIN.left + MARGIN.side, 324),
    bottom: MARGIN.top + 2 * halfHeight * scale,
    place: ({ x, y }) => ({
      x: MARGIN.left + (x + halfWidth) * scale,
      y: MARGIN.top + (halfHeight - y) * scale,
    }),
  }
}

/** All of them in one mark: there are hundreds, and they say only which via belongs to which land. */
function dogBoneLines({ dogBones }: BreakoutMapSpec, { place }: View): string[] {
  if (dogBones.length === 0) return []
  const ends = dogBones.map(([from, to]) => [place(from), place(to), { x: NaN, y: NaN }]).flat()
  return [polyline(ends, { stroke: INK.rule, 'stroke-width': 1.25 })]
}

/** Traces as thick as they are, or as thick as a print can show; those of pairs end in a dot. */
function routeLines({ routes }: BreakoutMapSpec, view: View): string[] {
  const lines = routes.map((route) =>
    polyline(route.path.map(view.place), {
      stroke: route.gap === null ? INK.accent : INK.text,
      'stroke-width': Math.max(route.width * view.scale, 0.75),
      'stroke-linejoin': 'round',
    }),
  )
  const ends = routes.flatMap(({ gap, path }) => (gap === null ? [] : path.slice(-1)))
  return [
    ...lines,
    group(
      { fill: INK.text },
      ends.map((end) => circle(view.place(end), PAIR_END)),
    ),
  ]
}

function legendEntries(spec: BreakoutMapSpec): LegendEntry[] {
  const { routes, unit } = spec
  const at = { x: 8, y: 6 }
  const line = (stroke: string, width: number): string =>
    segment({ x: 0, y: 6 }, { x: 16, y: 6 }, { stroke, 'stroke-width': width })
  const named = (kind: string, some: readonly Route[], mark: string): LegendEntry[] => {
    if (some.length === 0) return []
    const widths = [...new Set(some.map((route) => formatLength(route.width, unit)))]
    return [{ text: `${kind} (${some.length}), ${widths.join(', ')} wide`, mark }]
  }
  const single = routes.filter((route) => route.gap === null)
  const coupled = routes.filter((route) => route.gap !== null)
  const pairEnd = circle({ x: 14, y: 6 }, PAIR_END, { fill: INK.text })
  return [
    ...named('single traces', single, line(INK.accent, 2.5)),
    ...named('traces of coupled pairs', coupled, line(INK.text, 2.5) + pairEnd),
    ...(spec.starts.length === 0
      ? []
      : [
          {
            text: `${spec.obstacleName} where a route begins`,
            mark: circle(at, 5, { fill: INK.metal, stroke: INK.text }),
          },
        ]),
    ...(spec.dogBones.length === 0 ? [] : [{ text: 'dog-bone', mark: line(INK.rule, 1.25) }]),
    ...(spec.obstacles.length === 0
      ? []
      : [
          {
            text: `${spec.obstacleName} of other nets (${spec.obstacles.length})`,
            mark: circle(at, 5, {
              fill: patternFill({ figure: spec.id, kind: 'diagonal' }),
              stroke: INK.rule,
            }),
          },
        ]),
  ]
}
