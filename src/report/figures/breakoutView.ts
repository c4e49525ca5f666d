import type { KeepOut } from '../../board/escapeWishes.ts'
import type { Package } from '../../board/packages.ts'
import type { Place } from '../../charts/marks.ts'
import type { EscapePlan, LayerPlan, MainStart, UnescapedBall } from '../../escape/escape.ts'
import type { Route } from '../../routes/route.ts'
import type { LengthUnit, Metres, Point } from '../../units/quantity.ts'

export interface BreakoutMapSpec {
  readonly id: string
  readonly package: Package
  readonly plan: EscapePlan
  readonly layer: LayerPlan
  /** Where the necks of the plan widen, of all layers. */
  readonly mains: readonly MainStart[]
  readonly layerName: (layer: number) => string
  /** The other net of a pair; null for a single net. */
  readonly partnerOf: (net: string) => string | null
  readonly unit: LengthUnit
}

/** What one map shows, sorted out of the plan. */
export interface BreakoutScene extends BreakoutMapSpec {
  /** Routes that leave on this layer, and the balls where they begin. */
  readonly routes: readonly Route[]
  readonly begins: ReadonlySet<string>
  /** Beginning of the main route of each ball that leaves on this layer, where it is known. */
  readonly mainOf: ReadonlyMap<string, MainStart>
  /** Layer on which each ball of the plan leaves. */
  readonly exitLayers: ReadonlyMap<string, number>
  readonly unescaped: ReadonlyMap<string, UnescapedBall>
  readonly keepOuts: readonly KeepOut[]
  /** True on the layer that the package is soldered to. */
  readonly onLands: boolean
}

export function sceneOf(spec: BreakoutMapSpec): BreakoutScene {
  const { plan, layer } = spec
  const routes = plan.routes.filter((route) => route.exitLayer === layer.layer)
  return {
    ...spec,
    routes,
    mainOf: new Map(spec.mains.filter((main) => main.layer === layer.layer).map((main) => [main.ball, main])),
    begins: new Set(routes.map((route) => route.ball)),
    exitLayers: new Map(plan.routes.map((route) => [route.ball, route.exitLayer])),
    unescaped: new Map(plan.unescaped.map((each) => [each.ball, each])),
    keepOuts: spec.package.escape.keepOuts.filter(({ layers }) => layers.includes(layer.layer)),
    onLands: layer.standing.some(({ kind }) => kind === 'land'),
  }
}

/** From metres in the package's frame to places in the drawing. */
export interface BreakoutView {
  readonly scale: number
  /** Smaller pitch in the drawing. */
  readonly cell: number
  readonly width: number
  /** Edges of what is to scale; outside of it stand the names. */
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
  readonly place: (at: Point) => Place
}

/** Width that a page of A4 prints without shrinking the letters, and height that leaves room for the legend. */
const PAGE = { width: 690, height: 780 }
/** Of a pitch in the drawing: so wide that a fine trace shows, so narrow that a small package stays small. */
const CELL = { least: 6.5, most: 32 }
/** So wide that no entry of the legend runs over the edge. */
const NARROWEST = 440

export interface Margins {
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
}

/** One scale for everything: as large as the page allows. */
export function viewOf(scene: BreakoutScene, margins: Margins): BreakoutView {
  const { package: pack } = scene
  const half = extents(scene)
  const pitch = Math.min(pack.pitch.x, pack.pitch.y)
  const fitting = Math.min(
    (PAGE.width - margins.left - margins.right) / (2 * half.x),
    (PAGE.height - margins.top - margins.bottom) / (2 * half.y),
  )
  const cell = Math.min(Math.max(fitting * pitch, CELL.least), CELL.most)
  const scale = cell / pitch
  const wide = 2 * half.x * scale
  const left = margins.left + Math.max(0, (NARROWEST - wide - margins.left - margins.right) / 2)
  return {
    scale,
    cell,
    width: Math.max(wide + margins.left + margins.right, NARROWEST),
    left,
    right: left + wide,
    top: margins.top,
    bottom: margins.top + 2 * half.y * scale,
    place: ({ x, y }) => ({ x: left + (x + half.x) * scale, y: margins.top + (half.y - y) * scale }),
  }
}

/** From the middle of the package to the farthest end of a trace or obstacle; at least past the last row. */
function extents({ package: pack, routes, layer, mainOf }: BreakoutScene): { x: Metres; y: Metres } {
  const points = [
    ...routes.flatMap((route) => route.path),
    ...[...mainOf.values()].flatMap(({ path }) => path),
    ...layer.standing.map(({ at, diameter }) => ({
      x: Math.abs(at.x) + diameter / 2,
      y: Math.abs(at.y) + diameter / 2,
    })),
  ]
  const reach = (of: (point: Point) => number, count: number, pitch: number): Metres =>
    points.reduce((most, point) => Math.max(most, Math.abs(of(point))), (count * pitch) / 2)
  return {
    x: reach((point) => point.x, pack.columns, pack.pitch.x),
    y: reach((point) => point.y, pack.rows, pack.pitch.y),
  }
}
