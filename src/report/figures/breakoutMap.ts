import { HALO } from '../../charts/dimension.ts'
import { frame } from '../../charts/frame.ts'
import { INK, TYPE } from '../../charts/ink.ts'
import { legend } from '../../charts/legend.ts'
import { box, group, label, textWidth } from '../../charts/marks.ts'
import type { Place } from '../../charts/marks.ts'
import { pattern, patternFill } from '../../charts/patterns.ts'
import { scaleBar } from '../../charts/scaleBar.ts'
import type { KeepOut } from '../../board/escapeWishes.ts'
import { formatLength } from '../../units/format.ts'
import { count } from '../viewModel/words.ts'
import { gateBars, gateCounts, limitingGates } from './breakoutCut.ts'
import type { UsedGate } from './breakoutCut.ts'
import { breakoutLegend } from './breakoutLegend.ts'
import { exitNames, nameRoom } from './breakoutNames.ts'
import { clearances, crosses, dogBones, exitNumbers, standingRounds } from './breakoutRounds.ts'
import { pairTies, routeGroups } from './breakoutRoutes.ts'
import { sceneOf, viewOf } from './breakoutView.ts'
import type { BreakoutMapSpec, BreakoutScene, BreakoutView, Margins } from './breakoutView.ts'
import { gridNames } from './gridNames.ts'

const HEADING = 26
const EDGE = 8

/**
 * One exit layer of a package, to scale, seen from the top of the board: the copper and holes that stand there, the
 * ground that they keep free, every route as wide as it is, and the gates of the cut that limits the layer.
 */
export function breakoutMap(spec: BreakoutMapSpec): string {
  const scene = sceneOf(spec)
  const rowNames = spec.package.onGrid ? 8 + 6 * longestRowName(scene) : EDGE
  const view = viewOf(scene, marginsOf(scene, rowNames))
  const gates = limitingGates(scene)
  const below = view.bottom + nameRoom(scene) + 12
  const entries = breakoutLegend(scene, view, gates)
  const key = legend(entries, { x: EDGE, y: below + 16, width: view.width - 2 * EDGE })
  const bar = spec.package.pitch.x * (spec.package.columns > 12 ? 5 : 2)
  const { id } = spec
  return frame({
    id,
    title: `Breakout of ${spec.package.name} on ${spec.layerName(spec.layer.layer)}, seen from the top of the board`,
    description: `To scale. ${summary(scene)} ${entries.map((entry) => entry.text).join('; ')}.`,
    width: view.width,
    height: below + 16 + key.height + 8,
    definitions: scene.keepOuts.length === 0 ? [] : [pattern({ figure: id, kind: 'cross', ink: INK.rule })],
    body: [
      label(heading(scene), { x: EDGE, y: 16 }, { 'font-size': TYPE.strong, 'font-weight': 'bold' }),
      ...gridNames(spec.package, {
        left: view.left - nameRoom(scene) - rowNames / 2,
        top: view.top - nameRoom(scene) - 4,
        cell: view.cell,
        place: view.place,
      }),
      ...layers(scene, view, gates),
      scaleBar({
        x: EDGE,
        y: below,
        length: bar * view.scale,
        text: `${formatLength(bar, spec.unit)}, to scale`,
      }),
      key.drawing,
    ],
  })
}

/** From the ground up: what lies below is hidden by what matters more. */
function layers(scene: BreakoutScene, view: BreakoutView, gates: readonly UsedGate[]): string[] {
  return [
    clearances(scene, view),
    ...scene.keepOuts.map((area) => keepOut(area, scene, view)),
    dogBones(scene, view),
    gateBars(gates, scene, view),
    ...standingRounds(scene, view),
    exitNumbers(scene, view),
    ...routeGroups(scene, view),
    pairTies(scene, view),
    crosses(scene, view),
    gateCounts(gates, view),
    ...exitNames(scene, view),
  ].filter((mark) => mark !== '')
}

function marginsOf(scene: BreakoutScene, rowNames: number): Margins {
  const names = nameRoom(scene)
  return {
    left: rowNames + names,
    right: names + EDGE,
    top: HEADING + (scene.package.onGrid ? 12 : 0) + names,
    bottom: names,
  }
}

function longestRowName({ package: pack }: BreakoutScene): number {
  return pack.balls.reduce((most, { name }) => Math.max(most, name.replace(/\d+$/, '').length), 1)
}

/** Only as far as the map goes: a keep-out may reach beyond the breakout. Its name stands in it where there is room. */
function keepOut({ name, low, high }: KeepOut, { id }: BreakoutScene, view: BreakoutView): string {
  const [a, b] = [inside(view.place(low), view), inside(view.place(high), view)]
  const area = { x: a.x, y: b.y, width: b.x - a.x, height: a.y - b.y }
  const fits = textWidth(name, TYPE.small) < area.width && area.height > TYPE.small
  const middle = { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 + 3.5 }
  return group({ class: 'keep-out' }, [
    box(area, { fill: patternFill({ figure: id, kind: 'cross' }), stroke: INK.text, 'stroke-width': 0.75 }),
    ...(fits ? [label(name, middle, { 'font-size': TYPE.small, 'text-anchor': 'middle', ...HALO })] : []),
  ])
}

function inside({ x, y }: Place, { left, right, top, bottom }: BreakoutView): Place {
  return { x: Math.min(Math.max(x, left), right), y: Math.min(Math.max(y, top), bottom) }
}

function heading(scene: BreakoutScene): string {
  return `${scene.package.name}, ${scene.layerName(scene.layer.layer)}: ${count(scene.routes.length, 'net')} out`
}

function summary({ layer, routes }: BreakoutScene): string {
  const { bound } = layer
  const limit =
    bound === null
      ? ''
      : ` ${bound.waiting} waited for it; no plan lets more than ${bound.atMost} single nets out here.`
  return `${routes.length} nets leave on this layer.${limit}`
}
