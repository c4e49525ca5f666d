import type { Board } from '../../board/board.ts'
import type { EscapePlan } from '../../escape/escape.ts'
import { formatLength } from '../../units/format.ts'
import { layerName } from './layerName.ts'
import { paragraph, table, type Column } from './table.ts'

const column = (kind: Column['kind'], title: string): Column => ({ kind, title })

/** Lists of balls longer than this are cut, with the number of the rest. */
const SHOWN_BALLS = 40

/** One plan for people: each layer with its bound, what is proven and checked, and who stays inside. */
export function planText(board: Board, plan: EscapePlan, title: string): string {
  return [
    `\n  ${title} by ${plan.technology} vias\n`,
    faultsText(board, plan),
    layersText(board, plan),
    paragraph(`layers: ${layerCountText(plan)}`, 4, 2),
    paragraph(`clearances: ${clearanceText(plan)}`, 4, 2),
    paragraph(`method: ${plan.method}`, 4, 2),
    unescapedText(plan),
  ].join('')
}

function layersText(board: Board, { layers }: EscapePlan): string {
  return table(
    [
      column('word', 'layer'),
      column('number', 'waiting'),
      column('number', 'let out'),
      column('number', 'at most'),
      column('number', 'gates'),
      column('number', 'vias in the way'),
      column('number', 'per channel'),
      column('number', 'longest neck'),
      column('word', 'rings freed'),
    ],
    layers.map((layer) => [
      layerName(board, layer.layer),
      layer.bound === null ? '-' : String(layer.bound.waiting),
      String(layer.escaped),
      layer.bound === null ? '-' : String(layer.bound.atMost),
      layer.bound === null ? '-' : String(layer.bound.cut.length),
      String(layer.obstacles),
      String(layer.tracesPerChannel),
      layer.longestNeck === null ? '-' : formatLength(layer.longestNeck, board.displayUnit),
      layer.ringsFreed.length === 0 ? 'none' : layer.ringsFreed.join(', '),
    ]),
    4,
  )
}

function layerCountText({ layers, atLeastLayers }: EscapePlan): string {
  const used = layers.filter(({ escaped }) => escaped > 0).length
  const least =
    atLeastLayers === null
      ? 'no number is enough for every signal'
      : `at least ${atLeastLayers} for every signal`
  return `${used} by this plan (heuristic); ${least} (proven). At most: single nets past the vias that then stand, through the gates of the cut (proven)`
}

function clearanceText({ check }: EscapePlan): string {
  return `${check.compared} distances compared with the rules, ${check.faults.length} too small`
}

/** A plan that breaks a rule is a fault of ours: said first, and at length. */
function faultsText(board: Board, { check }: EscapePlan): string {
  if (check.faults.length === 0) return ''
  return [
    paragraph(
      'FAULT OF THE PROGRAM: this plan breaks the clearance rules below. Its nets must not be laid out from it. The description that leads to it is worth reporting.',
      4,
      2,
    ),
    table(
      [
        column('word', 'ball'),
        column('word', 'layer'),
        column('word', 'too near to'),
        column('word', 'rule'),
        column('number', 'found'),
        column('number', 'needed'),
      ],
      check.faults.map(({ ball, layer, other, rule, found, needed }) => [
        ball,
        layerName(board, layer),
        other,
        rule,
        formatLength(found, board.displayUnit),
        formatLength(needed, board.displayUnit),
      ]),
      4,
    ),
  ].join('')
}

/** Balls that stay inside for the same reason are said together, each with its net. */
function unescapedText({ unescaped }: EscapePlan): string {
  if (unescaped.length === 0) return '    every signal ball is out\n'
  const byReason = new Map<string, string[]>()
  for (const { ball, net, reason } of unescaped) {
    const balls = byReason.get(reason) ?? []
    balls.push(`${ball} (${net})`)
    byReason.set(reason, balls)
  }
  return [
    `    ${unescaped.length} not out\n`,
    ...[...byReason].map(([reason, balls]) => {
      const rest = balls.length - SHOWN_BALLS
      const named = balls.slice(0, SHOWN_BALLS).join(', ') + (rest > 0 ? ` and ${rest} more` : '')
      return paragraph(named, 4, 2) + paragraph(`why: ${reason}`, 6, 2)
    }),
  ].join('')
}
