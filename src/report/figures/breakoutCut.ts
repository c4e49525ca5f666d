import { INK } from '../../charts/ink.ts'
import { group, label, segment } from '../../charts/marks.ts'
import type { Place } from '../../charts/marks.ts'
import { HALO } from '../../charts/dimension.ts'
import { element, escapeText } from '../../charts/svg.ts'
import type { Attributes } from '../../charts/svg.ts'
import type { Gate } from '../../escape/escape.ts'
import type { Route } from '../../routes/route.ts'
import { formatLength } from '../../units/format.ts'
import type { Point } from '../../units/quantity.ts'
import type { BreakoutScene, BreakoutView } from './breakoutView.ts'

export interface UsedGate {
  readonly gate: Gate
  /** Traces of the plan that pass it. */
  readonly used: number
}

/** Gates of the cut that limits the layer, where nets that waited stay inside; empty where none do. */
export function limitingGates({ layer, routes }: Pick<BreakoutScene, 'layer' | 'routes'>): UsedGate[] {
  const { bound } = layer
  if (bound === null || bound.escaped >= bound.waiting) return []
  return bound.cut.map((gate) => ({ gate, used: routes.filter((route) => passes(route, gate)).length }))
}

function passes({ path, ball }: Route, { from, to, balls }: Gate): boolean {
  if (balls.includes(ball)) return false
  return path.slice(1).some((end, index) => cross(path[index] ?? end, end, from, to))
}

function cross(a: Point, b: Point, c: Point, d: Point): boolean {
  return turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) <= 0
}

function turn(a: Point, b: Point, c: Point): number {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)
}

export type GateState = 'full' | 'with room' | 'closed'

export function gateState({ gate, used }: UsedGate): GateState {
  if (gate.traces === 0) return 'closed'
  return used < gate.traces ? 'with room' : 'full'
}

/** Solid where every trace that passes is taken, hollow where there is room, dotted where none ever passes. */
export function gateBar(from: Place, to: Place, state: GateState): string {
  const bar = (more: Attributes): string => segment(from, to, { stroke: INK.warn, ...more })
  if (state === 'closed') return bar({ 'stroke-width': 1, 'stroke-dasharray': '1.5 1.5' })
  const solid = bar({ 'stroke-width': 2.4 })
  return state === 'full' ? solid : solid + bar({ stroke: INK.paper, 'stroke-width': 1.2 })
}

/** Each gate as a bar between its two obstacles. */
export function gateBars(gates: readonly UsedGate[], scene: BreakoutScene, view: BreakoutView): string {
  return group(
    { class: 'cut' },
    gates.map((each) =>
      element(
        'g',
        {},
        element('title', {}, escapeText(gateText(each, scene))),
        gateBar(view.place(each.gate.from), view.place(each.gate.to), gateState(each)),
      ),
    ),
  )
}

/** On each gate that passes several traces and has room: how many of them the plan takes. */
export function gateCounts(gates: readonly UsedGate[], view: BreakoutView): string {
  const size = Math.min(Math.max(view.cell * 0.28, 5.5), 8)
  return group(
    { 'font-size': size, 'text-anchor': 'middle', fill: INK.warn, 'font-weight': 'bold', ...HALO },
    gates
      .filter((each) => each.gate.traces > 1 && gateState(each) === 'with room')
      .map(({ gate, used }) => {
        const { x, y } = middle(view.place(gate.from), view.place(gate.to))
        return label(`${used} of ${gate.traces}`, { x, y: y + size * 0.36 })
      }),
  )
}

function gateText({ gate, used }: UsedGate, { unit }: BreakoutScene): string {
  const [one, other] = gate.balls
  return `between ${one} and ${other}: ${used} of ${gate.traces} traces, ${formatLength(gate.clear, unit)} clear`
}

function middle(a: Place, b: Place): Place {
  return { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 }
}
