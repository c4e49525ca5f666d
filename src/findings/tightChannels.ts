import { holesNamed } from '../board/lookup.ts'
import type { NetClass } from '../board/nets.ts'
import type { ChannelFit } from '../escape/escape.ts'
import { groupBy } from '../numerics/groupBy.ts'
import { assumedLimits, boardIndex, onLayer } from './boardIndex.ts'
import { channelsOf, type Channel } from './channels.ts'
import type { FindingContext } from './context.ts'
import { drawnDown, isBelow } from './drawn.ts'
import { byPackageAndSeverity, folded, type Weighed } from './folded.ts'
import type { Finding, FindingCode, Measure, Remedy } from './finding.ts'
import { metres, ohms } from './measure.ts'
import { tryLine } from './trials.ts'
import { drillIsDeepEnough, remainderWith, ringsHold, withDrill } from './viaChecks.ts'

/** The clearance that keeps a trace out: pads if they do it alone, else whichever of drill and mask leaves least. */
export type Obstruction = 'pad' | 'drill' | 'mask'

/** Keys of the limits that a channel is tested by. */
export const CHANNEL_LIMITS = ['trace_to_pad', 'mask_opening_to_trace', 'drill_to_copper']

export interface TightChannel extends Channel {
  readonly netClass: NetClass
  readonly obstruction: Obstruction
}

/** Channels that not one trace of their class passes. */
export function tightChannels(context: FindingContext): TightChannel[] {
  const { classes } = boardIndex(context)
  return channelsOf(context).flatMap((channel) => {
    const netClass = classes.get(channel.fit.netClass)
    if (netClass === undefined || channel.fit.traces > 0) return []
    return [{ ...channel, netClass, obstruction: obstructionOf(channel.fit, context) }]
  })
}

function obstructionOf(fit: ChannelFit, { board }: FindingContext): Obstruction {
  const { comparisonTolerance } = board.analysis
  const padAlone = fit.tests.some(
    ({ rule, clear }) => rule === 'trace to pad' && clear + comparisonTolerance < fit.width,
  )
  if (padAlone) return 'pad'
  return fit.governing.rule === 'drill to copper' ? 'drill' : 'mask'
}

/** One finding for each package and severity, on its tightest channel; other classes are named beside it. */
export function tightFindings(
  context: FindingContext,
  code: FindingCode,
  obstruction: Obstruction,
  remediesFor: (tight: TightChannel) => Remedy[],
): Finding[] {
  const tight = tightChannels(context).filter((each) => each.obstruction === obstruction)
  const groups = groupBy(tight, (each) => `${each.package}|${each.netClass.name}`)
  const found = [...groups.values()].flatMap((group) => {
    const [worst] = [...group].sort((a, b) => a.fit.remainder - b.fit.remainder)
    if (worst === undefined) return []
    const finding = tightFinding(context, code, worst, group)
    const remedies = (): Remedy[] => [...narrowerNeck(context, worst), ...remediesFor(worst)]
    return [{ finding, remedies, weight: worst.fit.remainder * -1, name: `class ${worst.netClass.name}` }]
  })
  return folded(found, byPackageAndSeverity)
}

function tightFinding(
  context: FindingContext,
  code: FindingCode,
  worst: TightChannel,
  group: readonly TightChannel[],
): Weighed['finding'] {
  const { fit, netClass } = worst
  return {
    code,
    severity: tightSeverity(context, worst),
    subject: {
      kind: 'class',
      name: netClass.name,
      layer: fit.layer,
      package: worst.package,
      alike: otherLayers(group, fit.layer),
    },
    measured: metres(`space left over ${fit.direction} by the rule ${fit.governing.rule}`, fit.remainder),
    limit: metres('at least', 0),
    limitSource: context.board.fabrication.source,
    details: channelDetails(fit),
    assumed: assumedLimits(context.board, ...CHANNEL_LIMITS),
  }
}

/**
 * A channel that is closed to a class matters only if balls of it stay inside: then it is an error where no
 * channel of the package is open to the class, a warning where some are. If all get out, a note.
 */
function tightSeverity(
  context: FindingContext,
  { package: pack, netClass }: TightChannel,
): Finding['severity'] {
  const { classOfNet } = boardIndex(context)
  const escape = context.escapes.find((each) => each.package === pack)
  const plan = escape?.plans.find((each) => each.technology === escape.chosen)
  const inside = plan?.unescaped.some(({ net }) => classOfNet.get(net) === netClass) ?? false
  if (!inside) return 'note'
  const open = channelsOf(context).some(
    (each) => each.package === pack && each.fit.netClass === netClass.name && each.fit.traces > 0,
  )
  return open ? 'warning' : 'error'
}

export function otherLayers(group: readonly Channel[], layer: number): string[] {
  const layers = new Set(group.map(({ fit }) => fit.layer).filter((other) => other !== layer))
  return [...layers].map((other) => `layer ${other}`)
}

export function channelDetails(fit: ChannelFit): Measure[] {
  return [
    metres('between centres', fit.span),
    metres('trace width', fit.width),
    ...fit.tests.map((test) => metres(`clear by the rule ${test.rule}`, test.clear)),
  ]
}

/** As wide as the channel is clear, if that can be etched. */
function narrowerNeck(context: FindingContext, { fit, netClass }: TightChannel): Remedy[] {
  const width = fit.widestOne === null ? 0 : drawnDown(context.board, fit.widestOne)
  if (isBelow(width, onLayer(context.board, context.board.fabrication.traceWidth, fit.layer))) return []
  const request = { layer: fit.layer, width, gap: null, coplanarGap: null, broadsideLayer: null }
  const line = tryLine(context, netClass, request)
  return [
    {
      action: 'narrow the neck to',
      value: metres('trace width', width),
      result:
        line === null
          ? metres('space left over', 0)
          : ohms('one trace passes, and the impedance of the neck', line.impedance, line.band),
    },
  ]
}

/** A smaller pad, if its ring holds. */
export function smallerPad(context: FindingContext, tight: Channel): Remedy[] {
  const { fit } = tight
  const { board } = context
  const test = fit.tests.find(({ rule }) => rule === 'trace to pad')
  if (fit.obstacle !== 'via pad' || test === undefined) return []
  const pad = drawnDown(board, test.obstacleDiameter + fit.remainder)
  const holds = viasOf(context, tight.package).every((via) =>
    ringsHold(board, {
      ...via,
      padDiameters: via.padDiameters.map((present) => Math.min(present, pad)),
    }),
  )
  const remainder = remainderWith(tight, 'trace to pad', pad)
  if (!holds || remainder + board.analysis.comparisonTolerance < 0) return []
  return [
    {
      action: 'make the via pad',
      value: metres('pad diameter', pad),
      result: metres('space left over', remainder),
    },
  ]
}

/** The same channel with the pads of unconnected vias removed, if a trace passes it then. */
export function withoutPads(context: FindingContext, { package: pack, fit }: Channel): Remedy[] {
  const escape = context.escapes.find((each) => each.package === pack)
  const bare = escape?.channels.find(
    (other) =>
      other.obstacle === 'hole without pad' &&
      other.layer === fit.layer &&
      other.direction === fit.direction &&
      other.netClass === fit.netClass,
  )
  if (fit.obstacle !== 'via pad' || bare === undefined || bare.traces === 0) return []
  return [
    {
      action: 'remove the pads of unconnected vias, which leaves holes of',
      value: metres('drilled diameter', bare.governing.obstacleDiameter),
      result: metres('space left over', bare.remainder),
    },
  ]
}

/** A smaller drill, if its aspect ratio holds. */
export function smallerDrill(context: FindingContext, tight: Channel): Remedy[] {
  const { board } = context
  const test = tight.fit.tests.find(({ rule }) => rule === 'drill to copper')
  if (test === undefined) return []
  const drilled = drawnDown(board, test.obstacleDiameter + tight.fit.remainder)
  const holds = viasOf(context, tight.package).every(
    (via) => drillIsDeepEnough(board, via, drilled) && withDrill(via, drilled).finishedDiameter > 0,
  )
  const remainder = remainderWith(tight, 'drill to copper', drilled)
  if (!holds || remainder + board.analysis.comparisonTolerance < 0) return []
  return [
    {
      action: 'drill',
      value: metres('drilled diameter', drilled),
      result: metres('space left over', remainder),
    },
  ]
}

/** A smaller mask opening, but not smaller than the land: then the mask would define it. */
export function smallerOpening(context: FindingContext, tight: Channel): Remedy[] {
  const pack = boardIndex(context).packages.get(tight.package)
  if (pack === undefined || tight.fit.obstacle !== 'land') return []
  const opening = drawnDown(context.board, pack.maskOpening + tight.fit.remainder)
  const remainder = remainderWith(tight, 'mask opening to trace', opening)
  if (isBelow(opening, pack.landDiameter) || remainder + context.board.analysis.comparisonTolerance < 0)
    return []
  return [
    {
      action: 'make the mask opening',
      value: metres('mask opening', opening),
      result: metres('space left over', remainder),
    },
  ]
}

function viasOf(context: FindingContext, packageName: string): ReturnType<typeof holesNamed> {
  const index = boardIndex(context)
  return holesNamed(context.board, index.packages.get(packageName)?.via ?? null)
}
