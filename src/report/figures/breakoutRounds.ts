import { INK } from '../../charts/ink.ts'
import { circle, group, label, polyline, segment } from '../../charts/marks.ts'
import type { Place } from '../../charts/marks.ts'
import { patternFill } from '../../charts/patterns.ts'
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

/** Rounds smaller than this are too small for a pattern or a figure in them. */
const PATTERN_RADIUS = 3
const LEAST_TYPE = 5

export function roundStyle(role: Role, figure: string, radius: number): Attributes {
  switch (role) {
    case 'begins here':
      return { fill: INK.metal, stroke: INK.text, 'stroke-width': 0.75 }
    case 'leaves elsewhere':
      return { fill: INK.paper, stroke: INK.quiet, 'stroke-width': 0.75 }
    case 'supply':
      return radius < PATTERN_RADIUS
        ? { fill: INK.rule, stroke: INK.rule, 'stroke-width': 0.5 }
        : { fill: patternFill({ figure, kind: 'diagonal' }), stroke: INK.rule, 'stroke-width': 0.75 }
    case 'no way out':
      return { fill: INK.paper, stroke: INK.warn, 'stroke-width': 1.6 }
    case 'no part':
      return { fill: INK.paper, stroke: INK.rule, 'stroke-width': 0.75, 'stroke-dasharray': '2 1.5' }
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
    const [first] = rounds
    if (first === undefined) return []
    const style = roundStyle(role, scene.id, (first.diameter / 2) * view.scale)
    return [
      group(
        style,
        rounds.map((each) => roundOf(each, view)),
      ),
    ]
  })
}

export function roundOf({ at, diameter }: Standing, view: BreakoutView): string {
  return circle(view.place(at), (diameter / 2) * view.scale)
}

/** In each land or via whose net leaves on another layer, the number of that layer, where it can be read. */
export function exitNumbers(scene: BreakoutScene, view: BreakoutView): string {
  const numbered = scene.layer.standing.flatMap((each) => {
    const exit = scene.exitLayers.get(each.ball)
    if (exit === undefined || scene.begins.has(each.ball)) return []
    if (scene.onLands && each.kind !== 'land') return []
    return [{ ...each, text: String(exit) }]
  })
  const [first] = numbered
  if (first === undefined) return ''
  const size = Math.min(first.diameter * view.scale * 0.72, 9)
  if (size < LEAST_TYPE) return ''
  return group(
    { 'font-size': size, 'text-anchor': 'middle', fill: INK.quiet },
    numbered.map(({ at, text }) => {
      const { x, y } = view.place(at)
      return label(text, { x, y: y + size * 0.36 })
    }),
  )
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
