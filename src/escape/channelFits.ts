import type { Board } from '../board/board.ts'
import type { NetClass } from '../board/nets.ts'
import type { GridPitch, Package } from '../board/packages.ts'
import type { Metres } from '../units/quantity.ts'
import { candidatesOf } from './candidates.ts'
import { chainRules, isOuter } from './chainReach.ts'
import { fitChannel } from './channelFit.ts'
import type { ChannelAnswer } from './channelFit.ts'
import { landRules } from './clearanceRules.ts'
import type { ClearanceRule } from './clearanceRules.ts'
import type { ChannelFit, ViaTechnology } from './escape.ts'
import { neckOf } from './neck.ts'
import { signalLayersFrom, unitChannel, viaGrid } from './unitChannel.ts'
import { landLayerOf, viaChains } from './viaChain.ts'
import type { ViaChain } from './viaChain.ts'

/** Two neighbouring obstacles of one kind. */
interface Obstacle {
  readonly obstacle: ChannelFit['obstacle']
  readonly innerPads: ChannelFit['innerPads']
  readonly pitch: GridPitch
  readonly rules: readonly ClearanceRule[]
}

const DIRECTIONS: readonly ChannelFit['direction'][] = ['between columns', 'between rows', 'diagonal']

/**
 * What every kind of channel lets through, on every layer that carries signals and for every class with a signal
 * ball on the package. On inner layers with the pads of unconnected vias kept, and with them removed.
 * Between diagonal neighbours the span is √(px² + py²).
 */
export function channelFits(board: Board, pack: Package, technology: ViaTechnology): ChannelFit[] {
  const used = new Set(candidatesOf(board, pack).map(({ netClass }) => netClass))
  const classes = board.classes.filter((netClass) => used.has(netClass))
  const chains = viaChains(board, pack, technology)
  const memory = new Map<string, ChannelAnswer>()
  return signalLayersFrom(board, pack).flatMap((layer) => {
    const clear = unitChannel(board, pack, chains, layer)?.clear ?? 0
    const obstacles = obstaclesOn(board, pack, chains, layer)
    return classes.flatMap((netClass) =>
      obstacles.flatMap((obstacle) =>
        DIRECTIONS.map((direction) => fitOf(board, netClass, layer, clear, obstacle, direction, memory)),
      ),
    )
  })
}

function obstaclesOn(
  board: Board,
  pack: Package,
  chains: ReadonlyMap<number, ViaChain>,
  layer: number,
): Obstacle[] {
  if (layer === landLayerOf(board, pack)) {
    return [
      { obstacle: 'land', innerPads: 'kept', pitch: pack.pitch, rules: landRules(pack, board.fabrication) },
      ...viaInLand(board, pack, chains, layer),
    ]
  }
  const chain = chains.get(layer)
  if (chain === undefined) return []
  const pitch = viaGrid(pack)
  const kept: Obstacle = {
    obstacle: 'via pad',
    innerPads: 'kept',
    pitch,
    rules: chainRules(board, chain, layer, true),
  }
  const holes = kept.rules.filter(({ rule }) => rule === 'drill to copper')
  return isOuter(board, layer)
    ? [kept]
    : [kept, { obstacle: 'hole without pad', innerPads: 'removed', pitch, rules: holes }]
}

/** A via in the land is an obstacle of its own: its hole may need more room than the land. */
function viaInLand(
  board: Board,
  pack: Package,
  chains: ReadonlyMap<number, ViaChain>,
  layer: number,
): Obstacle[] {
  const [chain] = chains.values()
  if (pack.viaPlacement !== 'in pad' || chain === undefined) return []
  const rules = chainRules(board, chain, layer, true)
  return [{ obstacle: 'via pad', innerPads: 'kept', pitch: pack.pitch, rules }]
}

function fitOf(
  board: Board,
  netClass: NetClass,
  layer: number,
  clear: Metres,
  obstacle: Obstacle,
  direction: ChannelFit['direction'],
  memory: Map<string, ChannelAnswer>,
): ChannelFit {
  const neck = neckOf(board, netClass, layer, clear)
  const width = neck.coupled?.width ?? neck.width
  const span = spanOf(obstacle.pitch, direction)
  const { rules } = obstacle
  const figures = rules.flatMap((rule) => [rule.rule, rule.obstacleDiameter, rule.clearance])
  const key = [span, width, neck.traceGap, ...figures].join('|')
  const answer =
    memory.get(key) ??
    fitChannel({
      span,
      rules,
      width,
      traceGap: neck.traceGap,
      tolerance: board.analysis.comparisonTolerance,
    })
  memory.set(key, answer)
  return {
    layer,
    obstacle: obstacle.obstacle,
    direction,
    innerPads: obstacle.innerPads,
    netClass: netClass.name,
    width,
    traceGap: neck.traceGap,
    span,
    ...answer,
  }
}

function spanOf(pitch: GridPitch, direction: ChannelFit['direction']): Metres {
  if (direction === 'between columns') return pitch.x
  return direction === 'between rows' ? pitch.y : Math.hypot(pitch.x, pitch.y)
}
