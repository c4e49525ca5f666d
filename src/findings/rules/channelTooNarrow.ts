import { groupBy } from '../../numerics/groupBy.ts'
import type { Metres } from '../../units/quantity.ts'
import { assumedLimits, boardIndex, onLayer } from '../boardIndex.ts'
import { channelsOf, type Channel } from '../channels.ts'
import type { FindingContext } from '../context.ts'
import type { Finding, Remedy } from '../finding.ts'
import { metres, ohms } from '../measure.ts'
import {
  CHANNEL_LIMITS,
  channelDetails,
  otherLayers,
  smallerOpening,
  smallerPad,
  tightFindings,
  withoutPads,
} from '../tightChannels.ts'
import { tryLine } from '../trials.ts'

/**
 * A channel between pads or lands that not one trace of a class passes, or that a pair cannot pass side by
 * side, so that it has to part round the obstacle.
 *
 * Closed: an error where balls of the class stay inside and no channel is open to it, a warning where some are,
 * a note where all get out. A pair that parts: a warning, or a note where its necks are single by its own plan.
 */
export function channelTooNarrow(context: FindingContext): Finding[] {
  const closed = tightFindings(context, 'channel-too-narrow', 'pad', (tight) => [
    ...smallerPad(context, tight),
    ...withoutPads(context, tight),
  ])
  return [...closed, ...partedPairs(context)]
}

function partedPairs(context: FindingContext): Finding[] {
  const { classes } = boardIndex(context)
  const parted = channelsOf(context).filter(({ fit }) => {
    return classes.get(fit.netClass)?.structure === 'pair' && fit.traces === 1
  })
  const groups = groupBy(parted, ({ package: pack, fit }) => `${pack}|${fit.netClass}`)
  return [...groups.values()].flatMap((group) => {
    const [worst] = [...group].sort((a, b) => shortOfTwo(context, a) - shortOfTwo(context, b))
    return worst === undefined ? [] : [partedPair(context, worst, group)]
  })
}

/** Space left over by two traces of the class's own width, or of the narrowest that the fabricator makes. */
function shortOfTwo(context: FindingContext, { fit }: Channel): Metres {
  return fit.governing.clear - 2 * widthOfTwo(context, fit.netClass, fit.layer) - fit.traceGap
}

function widthOfTwo(context: FindingContext, netClass: string, layer: number): Metres {
  const given = boardIndex(context).classes.get(netClass)?.neck.width ?? null
  return given ?? onLayer(context.board, context.board.fabrication.traceWidth, layer)
}

function partedPair(context: FindingContext, worst: Channel, group: readonly Channel[]): Finding {
  const { fit } = worst
  const routed = context.signals.some(
    ({ class: name, ends }) => name === fit.netClass && ends.some((end) => end.gap === null),
  )
  return {
    code: 'channel-too-narrow',
    severity: routed ? 'warning' : 'note',
    subject: {
      kind: 'class',
      name: fit.netClass,
      layer: fit.layer,
      package: worst.package,
      alike: otherLayers(group, fit.layer),
    },
    measured: metres(
      `space left over by both traces of the pair ${fit.direction}, by the rule ${fit.governing.rule},`,
      shortOfTwo(context, worst),
    ),
    limit: metres('at least', 0),
    limitSource: context.board.fabrication.source,
    remedies: [
      ...narrowerPair(context, worst),
      ...smallerPad(context, asPair(context, worst)),
      ...smallerOpening(context, asPair(context, worst)),
    ],
    details: [...channelDetails(fit), metres('gap inside the pair', fit.traceGap)],
    assumed: assumedLimits(context.board, 'trace_width', 'trace_gap', ...CHANNEL_LIMITS),
  }
}

/** The channel with what is left over by two traces in the place of one. */
function asPair(context: FindingContext, channel: Channel): Channel {
  return { ...channel, fit: { ...channel.fit, remainder: shortOfTwo(context, channel) } }
}

function narrowerPair(context: FindingContext, { fit }: Channel): Remedy[] {
  const netClass = boardIndex(context).classes.get(fit.netClass)
  const width = fit.widestTwo
  const least = onLayer(context.board, context.board.fabrication.traceWidth, fit.layer)
  if (netClass === undefined || width === null || width < least) return []
  const request = { layer: fit.layer, width, gap: fit.traceGap, coplanarGap: null, broadsideLayer: null }
  const line = tryLine(context, netClass, request)
  return [
    {
      action: 'narrow both traces of the pair to',
      value: metres('trace width', width),
      result:
        line === null
          ? metres('space left over', 0)
          : ohms('the pair passes together, and its impedance', line.impedance, line.band),
    },
  ]
}
