import { INK } from '../../charts/ink.ts'
import { circle, group, label, polyline, segment } from '../../charts/marks.ts'
import type { Place } from '../../charts/marks.ts'
import type { Attributes } from '../../charts/svg.ts'
import type { Standing } from '../../escape/escape.ts'
import type { Point } from '../../units/quantity.ts'
import type { BreakoutScene, BreakoutView } from './breakoutView.ts'

/** What a land or via on the layer means to the reader. */
export type Role = 'begins here' | 'leaves elsewhere' | 'supply' | 'no way out' | 'no part'

export function roleOf({ ball }: Standing, scene: BreakoutScene, uses: ReadonlyMap<string, string>): Role {
  if (scene.begins.has(ball)) return 'begins here'
  if (scene.exitLayers.has(ball)) return 'leaves elsewhere'
  if (scene.unescaped.has(ball)) return 'no way out'
  const use = uses.get(ball)
  return use === 'power' || use === 'ground' ? 'supply' : 'no part'
}

/** Smaller figures cannot be read. */
const LEAST_TYPE = 5

/** Fill and outline of a round; the outline is thinner where rounds are small and close. */
export function roundStyle(role: Role, cell: number): Attributes {
  const line = Math.min(0.75, Math.max(0.35, cell * 0.03))
  switch (role) {
    case 'begins here':
      return { fill: INK.metal, stroke: INK.text, 'stroke-width': line }
    case 'leaves elsewhere':
      return { fill: INK.paper, stroke: INK.quiet, 'stroke-width': line }
    case 'supply':
      return { fill: INK.deepShade, stroke: INK.rule, 'stroke-width': line }
    case 'no way out':
      return { fill: INK.paper, stroke: INK.warn, 'stroke-width': 2.2 * line }
    case 'no part':
      return { fill: INK.paper, stroke: INK.rule, 'stroke-width': line, 'stroke-dasharray': '2 1.5' }
  }
}

/** Round every obstacle the ground that no edge of a trace may enter: one mark for each size, as there are thousands. */
export function clearances({ layer }: BreakoutScene, { place, scale }: BreakoutView): string {
  const bySize = new Map<number, Place[]>()
  for (const { at, reach } of layer.standing) {
    const size = Math.round(reach * scale * 200) / 100
    const places = bySize.get(size) ?? []
    places.push(...dot(place(at)))
    bySize.set(size, places)
  }
  return group(
    { stroke: INK.deepShade, 'stroke-linecap': 'round', class: 'clearance' },
    [...bySize].map(([size, places]) => polyline(places, { stroke: INK.deepShade, 'stroke-width': size })),
  )
}

/** A line too short to see, whose round ends make a disc. */
function dot({ x, y }: Place): Place[] {
  return [
    { x, y },
    { x: x + 0.01, y },
    { x: NaN, y: NaN },
  ]
}

/** All rounds that no route of this layer begins in, each as large as it is. */
export function standingRounds(scene: BreakoutScene, view: BreakoutView): string[] {
  const uses = new Map(scene.package.balls.map((ball) => [ball.name, ball.use]))
  const roles: readonly Role[] = ['supply', 'no part', 'leaves elsewhere', 'no way out']
  const byRole = new Map<Role, Standing[]>()
  for (const each of scene.layer.standing) {
    const role = roleOf(each, scene, uses)
    const group = byRole.get(role)
    if (group === undefined) byRole.set(role, [each])
    else group.push(each)
  }
  return roles.flatMap((role) => {
    const rounds = byRole.get(role) ?? []
    if (rounds.length === 0) return []
    const drawn = rounds.map((each) => roundOf(each, view))
    const slashes = role === 'supply' ? [slash(rounds.map((each) => placed(each, view)))] : []
    return [group(roundStyle(role, view.cell), [...drawn, ...slashes])]
  })
}

export function roundOf(standing: Standing, view: BreakoutView): string {
  const { at, radius } = placed(standing, view)
  return circle(at, radius)
}

interface Round {
  readonly at: Place
  readonly radius: number
}

function placed({ at, diameter }: Standing, view: BreakoutView): Round {
  return { at: view.place(at), radius: (diameter / 2) * view.scale }
}

/** One stroke across each round. A pattern would say the same, and make a print of it ten times as large. */
export function slash(rounds: readonly Round[]): string {
  const ends = rounds.flatMap(({ at, radius }) => {
    const reach = radius * Math.SQRT1_2
    return [
      { x: at.x - reach, y: at.y + reach },
      { x: at.x + reach, y: at.y - reach },
      { x: NaN, y: NaN },
    ]
  })
  return polyline(ends, { stroke: INK.quiet })
}

/** In each land or via whose net leaves on another layer, the number of that layer. */
export function exitNumbers(scene: BreakoutScene, view: BreakoutView): string {
  const size = numberSize(scene, view)
  if (size === null) return ''
  const numbered = scene.layer.standing.flatMap(({ at, ball, kind }) => {
    const exit = scene.exitLayers.get(ball)
    if (exit === undefined || scene.begins.has(ball) || (scene.onLands && kind !== 'land')) return []
    const { x, y } = view.place(at)
    return [label(String(exit), { x, y: y + size * 0.36 })]
  })
  return group({ 'font-size': size, 'text-anchor': 'middle', fill: INK.quiet }, numbered)
}

/** Size of those numbers; null where the rounds are too small for any that can be read. */
export function numberSize({ layer }: BreakoutScene, { scale }: BreakoutView): number | null {
  const smallest = layer.standing.reduce((least, { diameter }) => Math.min(least, diameter), Infinity)
  const size = Math.min(smallest * scale * 0.72, 9)
  return size < LEAST_TYPE ? null : size
}

/** A cross on every signal ball that finds no way out on any layer, whether or not it stands on this one. */
export function crosses(scene: BreakoutScene, view: BreakoutView): string {
  const reach = Math.max(view.cell * 0.16, 1.6)
  return group(
    { stroke: INK.warn, 'stroke-width': Math.max(1, view.cell * 0.05), class: 'inside' },
    scene.package.balls
      .filter((ball) => scene.unescaped.has(ball.name))
      .map((ball) => cross(view.place(ball), reach)),
  )
}

export function cross({ x, y }: Place, reach: number): string {
  return polyline(
    [
      { x: x - reach, y: y - reach },
      { x: x + reach, y: y + reach },
      { x: NaN, y: NaN },
      { x: x - reach, y: y + reach },
      { x: x + reach, y: y - reach },
    ],
    { stroke: INK.warn },
  )
}

/** Copper from lands to the vias beside them, as wide as it is; that of this layer's own routes is drawn with them. */
export function dogBones(scene: BreakoutScene, view: BreakoutView): string {
  if (!scene.onLands) return ''
  const byWidth = new Map<number, [Point, Point][]>()
  for (const { from, to, width } of scene.plan.dogBones) {
    const bones = byWidth.get(width) ?? []
    bones.push([from, to])
    byWidth.set(width, bones)
  }
  return group(
    { class: 'dog-bones' },
    [...byWidth].map(([width, bones]) =>
      polyline(
        bones.flatMap(([from, to]) => [view.place(from), view.place(to), { x: NaN, y: NaN }]),
        { stroke: INK.rule, 'stroke-width': Math.max(width * view.scale, 0.75), 'stroke-linecap': 'round' },
      ),
    ),
  )
}

/** A short stroke for the legend. */
export function swatchLine(attributes: Attributes): string {
  return segment({ x: 0, y: 6 }, { x: 16, y: 6 }, attributes)
}
