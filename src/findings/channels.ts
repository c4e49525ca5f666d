import { holesNamed } from '../board/lookup.ts'
import type { NetClass } from '../board/nets.ts'
import type { ChannelFit } from '../escape/escape.ts'
import { groupBy } from '../numerics/groupBy.ts'
import type { Metres } from '../units/quantity.ts'
import { boardIndex } from './boardIndex.ts'
import type { FindingContext } from './context.ts'

/** One kind of channel of a package, as it is on the board: pads kept or removed as the via type says. */
export interface Channel {
  readonly package: string
  readonly fit: ChannelFit
}

/**
 * The straight channels that traces really run in, with the widths of their class. Diagonal ones are left
 * out: plans run along rows and columns. Of the two states of inner pads, the one that the vias have.
 */
export function channelsOf(context: FindingContext): Channel[] {
  const index = boardIndex(context)
  return context.escapes.flatMap((escape) => {
    const own = index.packages.get(escape.package)
    const removed = holesNamed(context.board, own?.via ?? null).every(
      (via) => via.unconnectedInnerPads === 'removed',
    )
    return escape.channels
      .filter((fit) => fit.direction !== 'diagonal' && isAsBuilt(fit, removed, escape.channels))
      .map((fit) => ({ package: escape.package, fit }))
  })
}

function isAsBuilt(fit: ChannelFit, removed: boolean, all: readonly ChannelFit[]): boolean {
  if (fit.obstacle === 'land') return true
  const hasBoth = all.some((other) => other.layer === fit.layer && other.obstacle === 'hole without pad')
  return !hasBoth || (fit.innerPads === 'removed') === removed
}

/**
 * Widest trace that lets as many pass a channel as pass now: the present width and its share of what is left
 * over, in the tightest direction that passes any. Null where none passes or the package has no channels.
 */
export function widestWithSameCount(
  context: FindingContext,
  netClass: NetClass,
  packageName: string | null,
  layer: number,
): Metres | null {
  const key = `${packageName ?? ''}|${netClass.name}|${layer}`
  const widths = (channelIndex(context).get(key) ?? [])
    .filter(({ fit }) => fit.traces > 0)
    .map(({ fit }) => fit.width + Math.max(0, fit.remainder) / fit.traces)
  return widths.length === 0 ? null : Math.min(...widths)
}

const indices = new WeakMap<FindingContext, Map<string, Channel[]>>()

function channelIndex(context: FindingContext): Map<string, Channel[]> {
  const known = indices.get(context)
  if (known !== undefined) return known
  const index = groupBy(
    channelsOf(context),
    ({ package: pack, fit }) => `${pack}|${fit.netClass}|${fit.layer}`,
  )
  indices.set(context, index)
  return index
}
