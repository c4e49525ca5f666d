import { groupBy } from '../../numerics/groupBy.ts'
import type { Metres } from '../../units/quantity.ts'
import { assumedLimits, boardIndex, onLayer } from '../boardIndex.ts'
import { channelsOf, type Channel } from '../channels.ts'
import type { FindingContext } from '../context.ts'
import { drawnDown, isBelow } from '../drawn.ts'
import { byPackageAndSeverity, folded, type Weighed } from '../folded.ts'
import type { Finding, Remedy } from '../finding.ts'
import { metres, ohms } from '../measure.ts'
import { neckEffect, neckGroups } from '../neckEnds.ts'
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
 * a note where all get out. A pair that cannot stay together: a warning where the reflection of its parted necks
 * is above its limit, else a note.
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
  const found = [...groups.values()].flatMap((group) => {
    const [worst] = [...group].sort((a, b) => shortOfTwo(context, a) - shortOfTwo(context, b))
    if (worst === undefined) return []
    const finding = partedPair(context, worst, group)
    const remedies = (): Remedy[] => pairRemedies(context, worst)
    return [
      { finding, remedies, weight: shortOfTwo(context, worst) * -1, name: `class ${worst.fit.netClass}` },
    ]
  })
  return folded(found, byPackageAndSeverity)
}

/** Space left over by two traces of the class's own width, or of the narrowest that the fabricator makes. */
function shortOfTwo(context: FindingContext, { fit }: Channel): Metres {
  return fit.governing.clear - 2 * widthOfTwo(context, fit.netClass, fit.layer) - fit.traceGap
}

function widthOfTwo(context: FindingContext, netClass: string, layer: number): Metres {
  const given = boardIndex(context).classes.get(netClass)?.neck.width ?? null
  return given ?? onLayer(context.board, context.board.fabrication.traceWidth, layer)
}

function partedPair(context: FindingContext, worst: Channel, group: readonly Channel[]): Weighed['finding'] {
  const { fit } = worst
  const parted = neckGroups(context)
    .flat()
    .filter(({ netClass, end }) => {
      return netClass.name === fit.netClass && end.package === worst.package && end.gap === null
    })
  const seen = parted.some(({ end }) => neckEffect(end) !== 'small')
  return {
    code: 'channel-too-narrow',
    severity: seen ? 'warning' : 'note',
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
    details: [...channelDetails(fit), metres('gap inside the pair', fit.traceGap)],
    assumed: assumedLimits(context.board, 'trace_width', 'trace_gap', ...CHANNEL_LIMITS),
  }
}

function pairRemedies(context: FindingContext, worst: Channel): Remedy[] {
  const pair = asPair(context, worst)
  return [...narrowerPair(context, worst), ...smallerPad(context, pair), ...smallerOpening(context, pair)]
}

/** The channel with what is left over by two traces in the place of one. */
function asPair(context: FindingContext, channel: Channel): Channel {
  return { ...channel, fit: { ...channel.fit, remainder: shortOfTwo(context, channel) } }
}

function narrowerPair(context: FindingContext, { fit }: Channel): Remedy[] {
  const netClass = boardIndex(context).classes.get(fit.netClass)
  const width = fit.widestTwo === null ? 0 : drawnDown(context.board, fit.widestTwo)
  const least = onLayer(context.board, context.board.fabrication.traceWidth, fit.layer)
  if (netClass === undefined || isBelow(width, least)) return []
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
