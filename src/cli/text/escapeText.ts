import type { Board } from '../../board/board.ts'
import type { ChannelFit, EscapePlan, LayerRule, PackageEscape } from '../../escape/escape.ts'
import { formatLength, formatNumber } from '../../units/format.ts'
import type { LengthUnit } from '../../units/quantity.ts'
import { assumptionsText } from './assumptionsText.ts'
import { pairs, paragraph, table, type Column } from './table.ts'

const column = (kind: Column['kind'], title: string): Column => ({ kind, title })

/** Lists of unescaped balls longer than this are cut, with the number of the rest. */
const SHOWN_BALLS = 40

/** Every package for people: layers needed, the plan, then the channels it rests on. */
export function escapeText(board: Board, escapes: readonly PackageEscape[]): string {
  return escapes.map((escape) => packageText(board, escape)).join('\n')
}

function packageText(board: Board, escape: PackageEscape): string {
  const { signals } = escape
  const plan = escape.plans.find(({ technology }) => technology === escape.chosen)
  const used = plan?.layers.filter(({ escaped }) => escaped > 0).length ?? 0
  const left = plan?.unescaped.length ?? 0
  return [
    paragraph(
      `${escape.package}: ${used} signal layers by ${escape.chosen} vias take out ${signals.count - left} of ${signals.count} signals`,
    ),
    pairs([
      ['channels per layer', String(escape.channelsPerLayer)],
      [
        'signals',
        `${signals.count}${signals.assumed ? ' (assumed: a share of the balls)' : ' (from the ball map)'}, deepest in ring ${signals.deepestRing}`,
      ],
    ]),
    ...escape.claims.map((claim) =>
      paragraph(
        `claim ${claim.verdict}: ${claim.claimed} signal layers by ${claim.technology} vias (${claim.source}); computed ${claim.computed ?? 'none that is enough'}. ${claim.reason}`,
        2,
        2,
      ),
    ),
    '\n  Signal layers needed\n',
    rulesText(escape.rules),
    ...escape.plans.map((one) => planText(board, one, one === plan)),
    '\n  Channels\n',
    channelsText(board, escape.channels),
  ].join('')
}

function rulesText(rules: readonly LayerRule[]): string {
  return table(
    [
      column('word', 'by'),
      column('word', 'vias'),
      column('number', 'layers'),
      column('number', 'unrounded'),
      column('word', 'from'),
      column('word', 'source'),
    ],
    rules.map((rule) => [
      rule.id,
      rule.technology,
      rule.signalLayers === null ? 'none' : String(rule.signalLayers),
      rule.unrounded === null ? '-' : formatNumber(rule.unrounded),
      rule.basis,
      rule.source,
    ]),
    4,
  )
}

function planText(board: Board, plan: EscapePlan, chosen: boolean): string {
  const { displayUnit } = board
  return [
    `\n  Plan by ${plan.technology} vias${chosen ? '' : ' (for comparison)'}\n`,
    table(
      [
        column('word', 'layer'),
        column('number', 'nets out'),
        column('word', 'rings freed'),
        column('number', 'vias in the way'),
        column('number', 'traces per channel'),
        column('number', 'longest neck'),
      ],
      plan.layers.map((layer) => [
        nameOf(board, layer.layer),
        String(layer.escaped),
        layer.ringsFreed.length === 0 ? 'none' : layer.ringsFreed.join(', '),
        String(layer.obstacles),
        String(layer.tracesPerChannel),
        layer.longestNeck === null ? '-' : formatLength(layer.longestNeck, displayUnit),
      ]),
      4,
    ),
    paragraph(`method: ${plan.method}`, 4, 2),
    unescapedText(plan),
    assumptionsText(plan.assumed),
  ].join('')
}

function unescapedText({ unescaped }: EscapePlan): string {
  if (unescaped.length === 0) return '    every signal ball is out\n'
  const rest = unescaped.length - SHOWN_BALLS
  return [
    `    ${unescaped.length} not out\n`,
    table(
      [column('word', 'ball'), column('word', 'net'), column('number', 'ring'), column('word', 'why')],
      unescaped.slice(0, SHOWN_BALLS).map(({ ball, net, ring, reason }) => [ball, net, String(ring), reason]),
      4,
    ),
    rest > 0 ? `    and ${rest} more\n` : '',
  ].join('')
}

function channelsText(board: Board, channels: readonly ChannelFit[]): string {
  const unit = board.displayUnit
  const widest = (width: number | null): string => (width === null ? 'none' : bare(width, unit))
  return [
    `    Lengths in ${unit}. Clear is what the governing rule leaves; left over is clear less the traces that pass.\n`,
    table(
      [
        column('word', 'layer'),
        column('word', 'class'),
        column('word', 'between'),
        column('number', 'span'),
        column('word', 'governed by'),
        column('number', 'clear'),
        column('number', 'width'),
        column('number', 'gap'),
        column('number', 'traces'),
        column('number', 'left over'),
        column('number', 'widest 1'),
        column('number', 'widest 2'),
      ],
      channels.map((fit) => [
        nameOf(board, fit.layer),
        fit.netClass,
        `${fit.obstacle}, ${fit.direction.replace('between ', '')}`,
        bare(fit.span, unit),
        fit.governing.rule,
        bare(fit.governing.clear, unit),
        bare(fit.width, unit),
        bare(fit.traceGap, unit),
        String(fit.traces),
        bare(fit.remainder, unit),
        widest(fit.widestOne),
        widest(fit.widestTwo),
      ]),
      4,
    ),
  ].join('')
}

/** A length without its unit, which stands over the table. */
function bare(metres: number, unit: LengthUnit): string {
  return formatLength(metres, unit).replace(` ${unit}`, '')
}

function nameOf(board: Board, layer: number): string {
  return board.stackup.copper[layer - 1]?.name ?? String(layer)
}
