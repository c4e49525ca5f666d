import { INK } from '../../charts/ink.ts'
import type { LegendEntry } from '../../charts/legend.ts'
import { box, circle, label } from '../../charts/marks.ts'
import { patternFill } from '../../charts/patterns.ts'
import type { Route } from '../../routes/route.ts'
import { lengthRange } from '../viewModel/words.ts'
import { gateBar, gateState } from './breakoutCut.ts'
import type { GateState, UsedGate } from './breakoutCut.ts'
import { cross, numberSize, roleOf, roundStyle, slash, swatchLine } from './breakoutRounds.ts'
import type { Role } from './breakoutRounds.ts'
import { isPair, THINNEST, traceInk } from './breakoutRoutes.ts'
import type { BreakoutScene, BreakoutView } from './breakoutView.ts'

const AT = { x: 8, y: 6 }
const RADIUS = 5
const LEGEND_CELL = 25

/** What every mark of a map means, with how many there are of it. */
export function breakoutLegend(
  scene: BreakoutScene,
  view: BreakoutView,
  gates: readonly UsedGate[],
): LegendEntry[] {
  return [
    ...traces('single traces', false, scene, view),
    ...traces('traces of pairs, joined where side by side', true, scene, view),
    ...mains(scene),
    ...rounds(scene, numberSize(scene, view) !== null),
    ...(scene.onLands && scene.plan.dogBones.length > 0
      ? [{ text: 'dog-bone', mark: swatchLine({ stroke: INK.rule, 'stroke-width': 2.5 }) }]
      : []),
    ...(scene.layer.standing.length > 0
      ? [
          {
            text: 'no edge of a trace in here',
            mark: circle(AT, 6, { fill: INK.deepShade }) + circle(AT, 3.5, { fill: INK.paper }),
          },
        ]
      : []),
    ...scene.keepOuts.map(({ name }) => ({
      text: `keep-out: ${name}`,
      mark: box(
        { x: 0, y: 0, width: 16, height: 12 },
        { fill: patternFill({ figure: scene.id, kind: 'cross' }), stroke: INK.text, 'stroke-width': 0.75 },
      ),
    })),
    ...cut(gates),
  ]
}

function traces(
  kind: string,
  coupled: boolean,
  scene: BreakoutScene,
  { scale }: BreakoutView,
): LegendEntry[] {
  const { routes, unit } = scene
  const some = routes.filter((route) => isPair(route, scene) === coupled)
  const [first] = some
  if (first === undefined) return []
  const widths = some.map((route) => route.width)
  const wide = lengthRange(Math.min(...widths), Math.max(...widths), unit)
  const thin = some.some((route: Route) => route.width * scale < THINNEST) ? ', drawn wider' : ''
  const line = swatchLine({ stroke: traceInk(coupled), 'stroke-width': 2.5 })
  const ends = coupled ? circle({ x: 14.4, y: 6 }, 1.6, { fill: INK.text }) : ''
  return [{ text: `${kind} (${some.length}), ${wide} wide${thin}`, mark: line + ends }]
}

/** How many main routes begin, and how many necks run on before that. */
function mains({ mainOf, unit }: BreakoutScene): LegendEntry[] {
  const some = [...mainOf.values()]
  if (some.length === 0) return []
  const widths = some.map(({ width }) => width)
  const wide = lengthRange(Math.min(...widths), Math.max(...widths), unit)
  const later = some.filter(({ runOn }) => runOn.length > 0).length
  const farther = later === 0 ? '' : `, ${later} farther out`
  const mark =
    swatchLine({ stroke: INK.metal, 'stroke-width': 1.5 }) +
    box({ x: 8, y: 3.5, width: 8, height: 5 }, { fill: INK.metal })
  return [{ text: `main routes begin (${some.length}), ${wide} wide${farther}`, mark }]
}

const ROLES: Readonly<Record<Role, string>> = {
  'begins here': 'a net of this layer begins',
  'leaves elsewhere': 'leaves on another layer',
  supply: 'power or ground',
  'no way out': 'no way out on any layer',
  'no part': 'no part of the plan',
}

function rounds(scene: BreakoutScene, numbered: boolean): LegendEntry[] {
  const uses = new Map(scene.package.balls.map((ball) => [ball.name, ball.use]))
  const balls = new Map<Role, Set<string>>()
  for (const each of scene.layer.standing) {
    const role = roleOf(each, scene, uses)
    balls.set(role, (balls.get(role) ?? new Set()).add(each.ball))
  }
  // Marked wherever their balls are, whether or not anything of theirs stands on the layer.
  balls.set('no way out', new Set(scene.unescaped.keys()))
  return (Object.keys(ROLES) as Role[]).flatMap((role) => {
    const number = balls.get(role)?.size ?? 0
    if (number === 0) return []
    const name = role === 'leaves elsewhere' && numbered ? 'leaves on the layer of that number' : ROLES[role]
    return [
      {
        text: `${name} (${number})`,
        mark: circle(AT, RADIUS, roundStyle(role, LEGEND_CELL)) + signOf(role, numbered),
      },
    ]
  })
}

/** What stands in a round beside its fill. */
function signOf(role: Role, numbered: boolean): string {
  if (role === 'no way out') return cross(AT, 2.6)
  if (role === 'supply') return slash([{ at: AT, radius: RADIUS }])
  if (role !== 'leaves elsewhere' || !numbered) return ''
  return label('3', { x: 8, y: 9 }, { 'font-size': 8, 'text-anchor': 'middle', fill: INK.quiet })
}

function cut(gates: readonly UsedGate[]): LegendEntry[] {
  const room = gates.reduce((sum, { gate }) => sum + gate.traces, 0)
  const used = gates.reduce((sum, each) => sum + Math.min(each.used, each.gate.traces), 0)
  const states: readonly [GateState, string][] = [
    ['full', 'full gates'],
    ['with room', 'gates with room'],
    ['closed', 'closed ways'],
  ]
  const counts = states.map(([state, name]) => ({
    state,
    name,
    count: gates.filter((each) => gateState(each) === state).length,
  }))
  return counts
    .filter(({ count }) => count > 0)
    .map(({ state, name, count }, index) => {
      const taken = room === 0 ? 'no trace passes' : `${used} of ${room} traces taken`
      const first = index === 0 ? `limiting cut, ${taken}: ` : ''
      return { text: `${first}${name} (${count})`, mark: gateBar({ x: 0, y: 6 }, { x: 16, y: 6 }, state) }
    })
}
